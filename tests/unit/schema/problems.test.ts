/** Faults of an input carry a code, so that other languages than English can say them, too. */
import { describe, expect, it } from 'vitest'
import { openChassis, openExchange } from '@core/schema'
import { problemWords } from '../../../renderer/shell/troubleWords'
import { de } from '../../../renderer/words/de'
import { makeDemo } from '../../../seeds/demo'
import { DEMO_SEED } from '../../../seeds/generate'

const { chassis } = makeDemo(DEMO_SEED).exchange
const faultsOf = (raw: unknown) => {
  const opened = openChassis(raw)
  return opened.kind === 'refused' ? opened.problems : []
}
/** The German catalogue without the window. */
const inGerman = (key: string, values: Record<string, string>): string => {
  const sentence = key.split('.').reduce<unknown>((at, part) => (at as Record<string, unknown>)[part], de) as string
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '')
}

describe('a fault of an input', () => {
  it.each([
    [{ ...chassis, name: 5 }, 'textNeeded'], [{ ...chassis, name: ' ' }, 'textMissing'],
    [{ ...chassis, name: 'a\nb' }, 'oneLine'], [{ ...chassis, createdAt: 'today' }, 'momentNeeded'],
    [{ ...chassis, surprise: 1 }, 'unknownKeys'],
    [{ ...chassis, trackMm: { front: -4, rear: 150 } }, 'tooLow'],
    [{ ...chassis, guesses: ['weather'] }, 'notOneOf'],
  ])('%#: has its code', (raw, code) => {
    expect(faultsOf(raw)[0]).toMatchObject({ code })
  })

  it('is said in German without a word of English', () => {
    const faults = faultsOf({ ...chassis, trackMm: { front: -4, rear: 150 } })
    expect(problemWords(faults[0]!, inGerman)).toMatch(/^nicht unter [\d.]+$/)
    const opened = openExchange({ format: 'other' })
    expect(opened.kind === 'refused' && problemWords(opened.problems[0]!, inGerman)).toBe('das ist keine Datei von Squatbench')
  })
})

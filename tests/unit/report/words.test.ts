import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { ENGLISH, GERMAN, quantityOfValue, REMARKS_EN, remarkIn, REPORT_EN } from '@core/report'

const CORE = new URL('../../../shared-core/', import.meta.url)

/** All sources below a folder, with their text. */
function sources(folder: URL): { path: string; text: string }[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const url = new URL(entry.isDirectory() ? `${entry.name}/` : entry.name, folder)
    if (entry.isDirectory()) return sources(url)
    return entry.name.endsWith('.ts') ? [{ path: url.pathname, text: readFileSync(url, 'utf8') }] : []
  })
}

const all = sources(CORE)

/** Codes that a source makes remarks with: the first argument of `remark` and its like, both arms of a choice. */
function codesIn(text: string): string[] {
  const direct = [...text.matchAll(/\b(?:remark|aeroRemark|say)\(\s*'([a-z]\w+)',\s*'(?:note|warning|stop)'/g)].map((m) => m[1]!)
  const chosen = [...text.matchAll(/\b(?:remark|aeroRemark)\([^'()]*\? '(\w+)' : '(\w+)'/g)].flatMap((m) => [m[1]!, m[2]!])
  return [...direct, ...chosen]
}

describe('words', () => {
  it('has a sentence for every remark that the core can make', () => {
    const codes = new Set(all.filter(({ path }) => !path.includes('/report/')).flatMap(({ text }) => codesIn(text)))
    expect(codes.size).toBeGreaterThan(60)
    expect([...codes].filter((code) => !(code in REMARKS_EN))).toEqual([])
  })

  it('says all of it in German too, with the same figures', () => {
    const places = (text: string | undefined): string => [...new Set(text?.match(/\{\w+\}/g))].sort().join()
    for (const part of ['sentences', 'remarks', 'reasons', 'untold'] as const) {
      expect(Object.keys(GERMAN[part]).sort()).toEqual(Object.keys(ENGLISH[part]).sort())
      const differ = Object.entries(ENGLISH[part]).filter(([key, text]) =>
        places(text) !== places((GERMAN[part] as Record<string, string>)[key]))
      expect(differ).toEqual([])
    }
  })

  it('has no sentence of the report that nothing says', () => {
    const report = all.filter(({ path }) => path.includes('/report/') && !path.includes('/words/')).map(({ text }) => text).join('\n')
    const prefixes = [...report.matchAll(/`(\w+_)\$\{/g)].map((m) => m[1]!)
    const unused = Object.keys(REPORT_EN).filter((key) =>
      !report.includes(`'${key}'`) && !prefixes.some((prefix) => key.startsWith(prefix)))
    // Said by what they name: axles, corners, branches, manoeuvres.
    const named = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight', 'zero', 'circle', 'slalom', 'launch', 'braking', 'other']
    expect(unused.filter((key) => !named.includes(key))).toEqual([])
  })

  it('fills in values, and shows a remark without words by its code', () => {
    const remark = { code: 'levelDrifts', severity: 'warning', stepId: null, corner: null, values: {} } as const
    expect(remarkIn(ENGLISH, remark, { perRun: '2 %', runs: 4 })).toContain('by 2 % per run over 4 runs')
    expect(remarkIn(ENGLISH, { ...remark, code: 'never' }, { offMm: '1 mm', corner: '' })).toBe('never, offMm 1 mm')
  })

  it('knows the quantity of a value by its name', () => {
    expect(['uMm', 'levelMs2', 'speedMs', 'frictionN', 'rateNPerMm', 'perRun', 'driverShare', 'dof', 'sustainS'].map(quantityOfValue))
      .toEqual(['length', 'acceleration', 'speed', 'force', 'rate', 'share', 'share', null, 'time'])
  })
})

import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { remark, REMARKS, type RemarkCode } from '@core/remark'
import { ENGLISH, GERMAN, remarkIn, REPORT_EN } from '@core/report'

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

describe('words', () => {
  it('asks for no figure that its remark does not have, nor for a place that it is not about', () => {
    const asked = (text: string): string[] => [...text.matchAll(/\{(\w+)\}/g)].map((m) => m[1]!)
    const lacking = Object.entries(REMARKS).flatMap(([code, { values }]) =>
      asked(ENGLISH.remarks[code as RemarkCode]).filter((name) => !(name in values) && name !== 'step' && name !== 'corner')
        .map((name) => `${code}: ${name}`))
    expect(lacking).toEqual([])
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
    const report = all.filter(({ path }) => path.includes('/report/') && !/\/words\/(?!say)/.test(path)).map(({ text }) => text).join('\n')
    const prefixes = [...report.matchAll(/`(\w+_)\$\{/g)].map((m) => m[1]!)
    const unused = Object.keys(REPORT_EN).filter((key) =>
      !report.includes(`'${key}'`) && !prefixes.some((prefix) => key.startsWith(prefix)))
    // Said by what they name: axles, corners, branches, manoeuvres.
    const named = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight', 'zero', 'circle', 'slalom', 'launch', 'braking', 'other']
    expect(unused.filter((key) => !named.includes(key))).toEqual([])
  })

  it('fills in the figures of a remark, and the place it is about', () => {
    const figures = { figure: (value: number, quantity: string) => `${value} ${quantity}`, shown: String, nameOf: () => 'Step 3' }
    expect(remarkIn(ENGLISH, remark('levelDrifts', { perRun: 0.02, runs: 4 }), figures))
      .toContain('by 0.02 share per run over 4 number runs')
    expect(remarkIn(GERMAN, remark('crossTalk', { axle: 'rear', offMm: 1, uMm: 1, sigma: 1 }, { kind: 'step', stepId: 's' }), figures))
      .toMatch(/^Step 3: .*Hinterachse/)
    expect(remarkIn(ENGLISH, remark('zeroNotRead', null, { kind: 'corner', corner: 'rearLeft' }), figures)).toContain('at rear left')
    expect(remarkIn(ENGLISH, remark('lackOfFit', { shape: 'stop', pValue: 0.001 }), figures)).toContain('(two slopes)')
  })
})

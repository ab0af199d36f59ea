/**
 * Loads on the track go through the same claim as everywhere else: "at least" past touch-down, marked
 * outside the speeds read, the whole car, one measure for both set-ups, bare by control runs alone.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS, type Analysis } from '@core/analysis'
import { openExchange, type Exchange, type TrackRun } from '@core/schema'
import { exact, type Statement } from '@core/uncertainty'
import { wholeLoads } from '@core/aero'
import { curvesOf } from '../../../shared-core/analysis/squats'

const opened = openExchange(JSON.parse(readFileSync('seeds/demo.json', 'utf8')))
if (opened.kind !== 'opened') throw new Error('the demo does not open')
const demo: Exchange = opened.document

type Circle = Extract<TrackRun, { kind: 'circle' }>

/** The demo with its circles changed and some airflow runs left out. */
function changed(circle: (run: Circle) => Circle, keep: (runId: string) => boolean = () => true): Exchange {
  return {
    ...demo,
    sessions: demo.sessions.map((session) => {
      if (session.kind === 'airflow') return { ...session, runs: session.runs.filter(({ id }) => keep(id)) }
      if (session.kind !== 'track') return session
      return { ...session, runs: session.runs.map((run) => (run.kind === 'circle' ? circle(run) : run)) }
    }),
  }
}

const agreementOf = (analysis: Analysis) => {
  const agreement = analysis.tracks[0]!.groups[0]!.comparisons[0]!.agreement
  if (!agreement) throw new Error('nothing is expected')
  return agreement
}
const same = (run: Circle): Circle => run
const plain = (statement: Statement) => {
  if (statement.kind !== 'interval') throw new Error(`said ${statement.kind}`)
  return statement
}

describe('the load that the track check takes from the bench', () => {
  it('is "at least" past touch-down, and no plain gain is expected of it', () => {
    // A circle of 70 m at 27.7 m/s: above the speed at which the skirts come down.
    const lapS = (2 * Math.PI * 70) / 27.7
    const fast = analyse(changed((run) => ({
      ...run, radiusM: { value: 70, u: 0.1 },
      lapsS: run.lapsS.map((lap, i) => ({ ...lap, timeS: lapS * (1 + 0.002 * (i - 2)) })),
    })), { ...DEFAULT_OPTIONS, speedsMs: [27.7] })
    const { expected } = agreementOf(fast)
    expect(expected.afterN.statement.kind).toBe('atLeast')
    expect(expected.total.statement.kind).not.toBe('interval')
    const skirts = fast.configurations.find((each) => each.configurationId === 'tray-skirts')!
    expect(skirts.predictions[0]!.totalN.kind).toBe('atLeast')
  })

  it('is the whole car’s at the same speed as it is told elsewhere, bodywork and all', () => {
    const whole = analyse(demo, { ...DEFAULT_OPTIONS, speedsMs: [18] })
    const skirts = whole.configurations.find((each) => each.configurationId === 'tray-skirts')!
    const speed = exact(18)
    const { total } = wholeLoads(skirts.aero, curvesOf(whole.squats[0]), demo.chassis, speed)
    if (total.kind !== 'value') throw new Error(total.kind)
    const bodywork = total.value.value - plain(skirts.predictions[0]!.totalN).value
    const pressurePa = 0.5 * skirts.aero.densityKgM3.value * 18 ** 2
    const { claM2 } = skirts.aero.whole.total
    if (claM2.claim.kind !== 'value') throw new Error(claM2.claim.kind)
    expect(total.value.value).toBeCloseTo(pressurePa * claM2.claim.value.value, 6)
    expect(bodywork).toBeGreaterThan(0)
  })

  it('is marked where the track’s speed lies outside the speeds that the bench read', () => {
    const { expected, remarks } = agreementOf(analyse(demo))
    const claim = expected.total.claim
    expect(claim.kind === 'value' && claim.extrapolated).toBe(true)
    expect(remarks.map(({ code }) => code)).toContain('benchExtrapolated')
  })

  it('tells what to expect where the bare set-up was blown as control runs alone', () => {
    const bare = new Set(['tray-half', 'tray-full', 'pass-tray', 'pass-skirts'])
    const { expected } = agreementOf(analyse(changed(same, (id) => !bare.has(id))))
    expect(plain(expected.total.statement).value).toBeGreaterThan(0)
    expect(plain(expected.beforeN.statement).value).toBeGreaterThan(0)
  })

  it('is one measure for both: a bare car by passes and skirts by blower are compared as read', () => {
    const kept = new Set(['pass-tray', 'control-half', 'skirts-half'])
    const mixed = agreementOf(analyse(changed(same, (id) => kept.has(id))))
    const passes = agreementOf(analyse(changed(same, (id) => id.startsWith('pass'))))
    const [a, b] = [plain(mixed.expected.total.statement), plain(passes.expected.total.statement)]
    // Both are estimates of one gain: they lie within their common uncertainty, no bodywork apart.
    expect(Math.abs(a.value - b.value)).toBeLessThan(2 * Math.hypot(a.u, b.u))
    expect(a.value).toBeGreaterThan(0.02)
  })
})

/** Coasts and runs at full throttle along a straight: drag, rolling that grows with the load, wind, a slope. */
import { SCHEMA_VERSION, type Air, type CoastRun, type CoastSession } from '@core/schema'
import type { Draws } from './random'

/** What is true of the car on the straight, and of that day. */
export interface CoastTruth {
  readonly massKg: number
  readonly gravityMs2: number
  readonly turningKg: number
  readonly rolling: number
  readonly densityKgM3: number
  readonly windMs: number
  readonly gustMs: number
  readonly slope: number
  readonly powerW: number
  readonly cdaM2: Readonly<Record<string, number>>
  readonly claM2: Readonly<Record<string, number>>
}

interface Motion { readonly t: number; readonly v: number; readonly x: number }

const STEP_S = 0.002

/** The car's motion from a speed, pushed by a power or by nothing, until `ends` says so. */
function move(
  truth: CoastTruth, configurationId: string, way: 1 | -1, windMs: number, startMs: number, powerW: number,
  ends: (at: Motion) => boolean,
): Motion[] {
  const rate = (v: number): number => {
    const air = v - way * windMs
    const q = (truth.densityKgM3 / 2) * air * Math.abs(air)
    const load = truth.massKg * truth.gravityMs2 + truth.claM2[configurationId]! * Math.abs(q)
    const against = q * truth.cdaM2[configurationId]! + truth.rolling * load
      + way * truth.massKg * truth.gravityMs2 * truth.slope
    return ((powerW > 0 ? powerW / v : 0) - against) / (truth.massKg + truth.turningKg)
  }
  const path: Motion[] = [{ t: 0, v: startMs, x: 0 }]
  for (let at = path[0]!; !ends(at) && at.t < 60; path.push(at)) {
    const half = at.v + (STEP_S / 2) * rate(at.v)
    at = { t: at.t + STEP_S, v: at.v + STEP_S * rate(half), x: at.x + STEP_S * half }
  }
  return path
}

export interface CoastPlan {
  readonly configurationId: string
  readonly runs: number
  readonly startMs: number
  readonly gatesM: readonly number[]
  readonly timeUS: number
}

const head = (id: string, name: string, configurationId: string, direction: 'out' | 'back') => ({
  id, name, configurationId, direction, drivetrain: 'pinionOut' as const, ballastKg: 0, note: '', setAside: null,
})

/** Coasts out and back by turns, timed at gates. */
export function gateCoasts(draws: Draws, truth: CoastTruth, plan: CoastPlan, name: string): CoastRun[] {
  return Array.from({ length: plan.runs }, (_, i): CoastRun => {
    const direction = i % 2 === 0 ? 'out' as const : 'back' as const
    const wind = draws.normal(truth.windMs, truth.gustMs)
    const last = plan.gatesM.at(-1)!
    const path = move(truth, plan.configurationId, direction === 'out' ? 1 : -1, wind,
      draws.normal(plan.startMs, 0.4), 0, ({ x }) => x > last)
    const moments = plan.gatesM.map((gate) => path.find(({ x }) => x >= gate)!)
    return {
      ...head(`${plan.configurationId}-coast-${i + 1}`, `${name}, coast ${i + 1}`, plan.configurationId, direction),
      purpose: 'coast',
      data: {
        kind: 'gates', uTimeS: plan.timeUS,
        gates: moments.map(({ t, x, v }, k) => ({
          id: `gate-${k + 1}`, distanceMm: { value: plan.gatesM[k]! * 1000, u: 20 },
          timeS: Number((3 + t - (x - plan.gatesM[k]!) / v + draws.normal(0, plan.timeUS)).toFixed(4)),
        })),
      },
    }
  })
}

/** Runs at full throttle, speeds read ten times a second. */
export function throttleRuns(draws: Draws, truth: CoastTruth, configurationId: string, count: number): CoastRun[] {
  return Array.from({ length: count }, (_, i): CoastRun => {
    const direction = i % 2 === 0 ? 'out' as const : 'back' as const
    const path = move(truth, configurationId, direction === 'out' ? 1 : -1, draws.normal(truth.windMs, truth.gustMs), 7,
      truth.powerW, ({ t }) => t > 2.5)
    const kept = path.filter((_, k) => k % 50 === 0)
    return {
      ...head(`throttle-${i + 1}`, `Full throttle ${i + 1}`, configurationId, direction), purpose: 'fullThrottle',
      data: {
        kind: 'speeds', fileName: `straight-${i + 1}.csv`, fingerprint: '', uSpeedMs: null, uTimeS: 0,
        readings: kept.map(({ t, v }) =>
          ({ timeS: Number(t.toFixed(3)), speedMs: Number((v + draws.normal(0, 0.08)).toFixed(2)) })),
      },
    }
  })
}

export function coastSession(
  chassisId: string, id: string, name: string, createdAt: string, air: Air, runs: readonly CoastRun[],
): CoastSession {
  return {
    schemaVersion: SCHEMA_VERSION, id, chassisId, revision: 1, name, note: '', createdAt, kind: 'coast', air,
    rotatingShare: { value: 0.05, u: 0.02 }, windMs: { value: 0, u: 2 }, slope: { value: 0, u: 0.01 },
    speedScaleU: 0.01, runs: [...runs],
  }
}

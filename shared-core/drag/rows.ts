/**
 * One coast made linear about the present parameters: for each reading the residual and its
 * dependence on what all coasts share and on what is this coast's own.
 */
import { airDistanceAt, airSpeedAt, distanceSlopes, speedSlopes, type Coast } from './motion'
import type { CoastInput, CoastSettings } from './types'

/** What the linear model has for every coast, in this order. Own: start speed, moment of the first gate, gust. */
export const COLUMNS = { start: 0, moment: 1, gust: 2, rolling: 3, wind: 4, slope: 5, area: 6, residual: 7 } as const
export const WIDTH = 8

/** Parameters that one coast is driven by. */
export interface CoastState {
  /** Air speed at the coast's first reading, m/s. */
  readonly startMs: number
  /** Shift of the moment of the first gate, s; 0 for speeds. */
  readonly momentS: number
  readonly rolling: number
  readonly windMs: number
  readonly slope: number
  readonly areaM2: number
}

/** Rows of one coast, column by column: entry `column * count + row`, each over its standard uncertainty. */
export interface Rows {
  readonly count: number
  readonly entries: Float64Array
  /** Residuals as read, m/s or s. */
  readonly residuals: Float64Array
}

/** Rows of a coast; null where the present parameters bring it to rest before its last reading. */
export function rowsOf(input: CoastInput, settings: CoastSettings, state: CoastState): Rows | null {
  return input.data.kind === 'speeds' ? speedRows(input, settings, state) : gateRows(input, settings, state)
}

function coastOf({ massKg, densityKgM3, sense }: CoastInput, settings: CoastSettings, state: CoastState): Coast {
  return {
    massKg: massKg * (1 + settings.rotatingShare),
    steadyN: massKg * settings.gravityMs2 * (state.rolling + sense * state.slope),
    squareNPerMs2: (densityKgM3 / 2) * state.areaM2,
    startMs: state.startMs,
  }
}

function speedRows(input: CoastInput, settings: CoastSettings, state: CoastState): Rows | null {
  const { tS, vMs } = input.data as Extract<CoastInput['data'], { kind: 'speeds' }>
  const coast = coastOf(input, settings, state)
  const count = tS.length
  const entries = new Float64Array(WIDTH * count)
  const residuals = new Float64Array(count)
  const own = input.uSpeedMs ?? 1
  const weightN = input.massKg * settings.gravityMs2
  for (let i = 0; i < count; i++) {
    const t = tS[i]! - tS[0]!
    const u = airSpeedAt(coast, t)
    if (!(u > 0)) return null
    const slopes = speedSlopes(coast, t, u)
    const slowing = (coast.steadyN + coast.squareNPerMs2 * u * u) / coast.massKg
    const over = 1 / Math.hypot(own, slowing * input.uTimeS)
    residuals[i] = vMs[i]! - (u + input.sense * state.windMs)
    const set = (column: number, value: number): void => {
      entries[column * count + i] = value * over
    }
    set(COLUMNS.start, slopes.start)
    set(COLUMNS.gust, input.sense)
    set(COLUMNS.rolling, slopes.steady * weightN)
    set(COLUMNS.wind, input.sense)
    set(COLUMNS.slope, slopes.steady * weightN * input.sense)
    set(COLUMNS.area, (slopes.square * input.densityKgM3) / 2)
    set(COLUMNS.residual, residuals[i]!)
  }
  return { count, entries, residuals }
}

function gateRows(input: CoastInput, settings: CoastSettings, state: CoastState): Rows | null {
  const { tS, xM } = input.data as Extract<CoastInput['data'], { kind: 'gates' }>
  const coast = coastOf(input, settings, state)
  const count = tS.length
  const entries = new Float64Array(WIDTH * count)
  const residuals = new Float64Array(count)
  const wind = input.sense * state.windMs
  const weightN = input.massKg * settings.gravityMs2
  const over = 1 / Math.max(input.uTimeS, 1e-6)
  let t = 0
  for (let i = 0; i < count; i++) {
    const found = momentAt(coast, wind, xM[i]! - xM[0]!, t)
    if (found === null) return null
    t = found
    const speed = airSpeedAt(coast, t) + wind
    const slopes = distanceSlopes(coast, t)
    residuals[i] = tS[i]! - tS[0]! - state.momentS - t
    const set = (column: number, value: number): void => {
      entries[column * count + i] = value * over
    }
    set(COLUMNS.moment, 1)
    set(COLUMNS.start, -slopes.start / speed)
    set(COLUMNS.gust, (-input.sense * t) / speed)
    set(COLUMNS.rolling, (-slopes.steady * weightN) / speed)
    set(COLUMNS.wind, (-input.sense * t) / speed)
    set(COLUMNS.slope, (-slopes.steady * weightN * input.sense) / speed)
    set(COLUMNS.area, (-slopes.square * input.densityKgM3) / 2 / speed)
    set(COLUMNS.residual, residuals[i]!)
  }
  return { count, entries, residuals }
}

/** The moment at which a distance over ground is reached, by Newton's steps from an earlier moment. */
function momentAt(coast: Coast, windMs: number, distanceM: number, from: number): number | null {
  let t = from
  for (let step = 0; step < 60; step++) {
    const speed = airSpeedAt(coast, t) + windMs
    if (!(speed > 0)) return null
    const missing = distanceM - (airDistanceAt(coast, t) + windMs * t)
    t += missing / speed
    if (Math.abs(missing) <= 1e-12 * Math.max(1, distanceM)) return t
  }
  return null
}

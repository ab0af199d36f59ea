/**
 * An accelerometer's log of circles driven by turns to the left and to the right: the sensor leans,
 * has a bias, shakes with the car, reads in g, and its logger drops and garbles rows now and then.
 */
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import type { Draws } from './random'

/** What a logger does to a row; the reader must count each. */
export const LOG_FAULTS = ['cutOff', 'emptyField', 'word', 'beyond', 'twice'] as const
export type LogFault = (typeof LOG_FAULTS)[number]

export interface LogPlan {
  readonly rateHz: number
  readonly lengthS: number
  /** The car stands still for so long at the start. */
  readonly restS: number
  /** One circle, its two ramps of a second included. */
  readonly circleS: number
  /** Lateral acceleration held between the ramps, m/s2. */
  readonly levelMs2: number
  readonly radiusM: number
  /** What the engine and the surface shake, m/s2, and how neighbouring samples hang together, 0 to just under 1. */
  readonly noiseMs2: number
  readonly memory: number
  /** A blow in the middle of each circle, m/s2, a few samples long. */
  readonly blowMs2: number
  /** How the sensor leans in the car, degrees about its x and y axis, and what it shows of nothing, m/s2. */
  readonly leanDeg: { readonly x: number; readonly y: number }
  readonly biasMs2: { readonly x: number; readonly y: number; readonly z: number }
  /** Lines above the data, the names of the five columns (time in ms, three axes in g, speed in km/h) the last. */
  readonly head: readonly string[]
  readonly delimiter: ';' | ','
  /** Garbled rows of each kind. */
  readonly faultsOfEach: number
}

export interface SimulatedLog {
  readonly text: string
  /** Rows written below the head, the garbled ones included. */
  readonly rows: number
  /** Lines, from 1, and what is wrong with each. */
  readonly faults: ReadonlyMap<number, LogFault>
}

const RAMP_S = 1
const BLOW_S = 0.02

/** True lateral acceleration at a time, m/s2, to the left and to the right by turns. */
export function lateralAt(plan: LogPlan, atS: number): number {
  if (atS < plan.restS) return 0
  const [turn, inside] = [Math.floor((atS - plan.restS) / plan.circleS), (atS - plan.restS) % plan.circleS]
  const ramp = Math.min(1, inside / RAMP_S, (plan.circleS - inside) / RAMP_S)
  const blow = Math.abs(inside - plan.circleS / 2) < BLOW_S ? plan.blowMs2 : 0
  return (turn % 2 === 0 ? 1 : -1) * (plan.levelMs2 * ramp + blow)
}

/** The log. Same draws, same bytes. */
export function simulatedLog(draws: Draws, plan: LogPlan): SimulatedLog {
  const rows = Math.round(plan.lengthS * plan.rateHz)
  const faults = faultyRows(draws, plan, rows)
  const [lx, ly] = [(plan.leanDeg.x * Math.PI) / 180, (plan.leanDeg.y * Math.PI) / 180]
  const fresh = Math.sqrt(1 - plan.memory ** 2)
  const noise = [0, 0, 0]
  const lines = [...plan.head]
  let before = ''
  for (let i = 0; i < rows; i++) {
    const atS = i / plan.rateHz
    const shaken = atS < plan.restS ? 0.05 : 1
    for (let axis = 0; axis < 3; axis++) {
      noise[axis] = plan.memory * noise[axis]! + fresh * draws.normal(0, plan.noiseMs2)
    }
    const lateral = lateralAt(plan, atS)
    // Leaned about x, then about y.
    const across = lateral * Math.cos(lx) + STANDARD_GRAVITY_MS2 * Math.sin(lx)
    const up = STANDARD_GRAVITY_MS2 * Math.cos(lx) - lateral * Math.sin(lx)
    const axes = [
      up * Math.sin(ly) + plan.biasMs2.x + noise[0]! * shaken, across + plan.biasMs2.y + noise[1]! * shaken,
      up * Math.cos(ly) + plan.biasMs2.z + noise[2]! * shaken,
    ]
    const speedKmh = 3.6 * Math.sqrt(Math.min(Math.abs(lateral), plan.levelMs2) * plan.radiusM)
    const fields = [
      (atS * 1000).toFixed(0), ...axes.map((each) => (each / STANDARD_GRAVITY_MS2).toFixed(4)), speedKmh.toFixed(1),
    ]
    const fault = faults.get(i)
    const line = fault ? garbled(fields, fault, before, plan.delimiter) : fields.join(plan.delimiter)
    lines.push(line)
    before = line
  }
  return {
    text: `${lines.join('\n')}\n`, rows,
    faults: new Map([...faults].map(([row, fault]) => [row + plan.head.length + 1, fault])),
  }
}

/** Rows that are garbled, apart from each other and from the rest at the start. */
function faultyRows(draws: Draws, plan: LogPlan, rows: number): Map<number, LogFault> {
  const kinds = draws.shuffled(LOG_FAULTS.flatMap((fault) => Array.from({ length: plan.faultsOfEach }, () => fault)))
  const first = Math.ceil(plan.restS * plan.rateHz)
  const each = Math.floor((rows - first) / Math.max(1, kinds.length))
  return new Map(kinds.map((fault, i) => [first + i * each + draws.whole(1, Math.max(1, each - 2)), fault]))
}

function garbled(fields: readonly string[], fault: LogFault, before: string, delimiter: string): string {
  switch (fault) {
    case 'cutOff': return fields.slice(0, 2).join(delimiter)
    case 'emptyField': return fields.with(2, '').join(delimiter)
    case 'word': return fields.with(2, 'overrun').join(delimiter)
    case 'beyond': return fields.with(3, '99999999').join(delimiter)
    case 'twice': return before
  }
}

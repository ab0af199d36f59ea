/** Which set-up presses hardest at a speed, how surely, where it lies, when it comes down and what it costs. */
import type { ConfigurationAero, MatrixCell, Probability } from '@core/aero'
import { pressureAt } from '@core/aero'
import { atSpeed, type Analysis, type ConfigurationResult, type CostOfPair } from '@core/analysis'
import { AXLES, type Chassis } from '@core/schema'
import {
  COVERAGE_FACTOR, scaleClaim, standardUncertainty, statementOf, timesPositive, type Claim, type Statement,
  type Uncertain,
} from '@core/uncertainty'
import type { UnitChoice } from '@core/units'
import { firstToTouch } from './firstToTouch'
import { answerSpeed } from './speed'
import type { Answer, BalanceAnswer, CostAnswer, Lead, TouchAnswer } from './types'

/** A move of the front share smaller than this is called slight (a judgement of ours, no source). */
const SLIGHT = 0.03

export interface AnswerQuestion {
  readonly units: Pick<UnitChoice, 'speed'>
  /** The set-ups it is asked of; all where left out. */
  readonly of?: readonly string[]
  /** Asked just now, m/s, before the car is written down; else what the car keeps. */
  readonly speedMs?: number
}

type Results = Pick<Analysis, 'squats' | 'configurations' | 'matrix' | 'costs'>

/** The answer; null where no set-up was read in moving air. */
export function answerOf(analysis: Results, chassis: Chassis, { units, of, speedMs }: AnswerQuestion): Answer | null {
  const ordered = inOrder(analysis, of)
  const [best] = ordered
  const speed = answerSpeed(speedMs === undefined ? chassis : { askedSpeedMs: speedMs }, ordered, units)
  if (!best || !speed) return null
  const at = atSpeed(analysis, best, chassis, speed.speedMs)
  const down = AXLES.some((axle) => isDown(at.state[axle]))
  const otherDown = (id: string): boolean => {
    const other = ordered.find(({ configurationId }) => configurationId === id)
    return !other || AXLES.some((axle) => isDown(atSpeed(analysis, other, chassis, speed.speedMs).state[axle]))
  }
  const lead = leadOf(analysis.matrix?.cells ?? [], ordered, pressureAt(best.aero.densityKgM3, speed.speedMs),
    (id) => down || otherDown(id))
  return {
    speed, configurationId: best.configurationId, measure: best.aero.measure, at, lead,
    balance: down ? null : balanceOf(best.aero), touch: touchOf(best, down),
    cost: costOf(analysis, best, lead.other, speed.speedMs),
    doubt: at.totalN.kind === 'interval' ? at.totalN.budget[0] ?? null : null,
    airSpeedHalf: airSpeedHalf(best.aero),
    untold: at.totalN.kind === 'untold' ? at.totalN.because : null,
  }
}

const isDown = (state: string): boolean => state === 'touching' || state === 'unstable'

/** Most downforce first, as the matrix has them. */
export function inOrder(
  { configurations, matrix }: Pick<Analysis, 'configurations' | 'matrix'>, of?: readonly string[],
): ConfigurationResult[] {
  const ranks = new Map(matrix?.ranked.map((row) => [row.configurationId, row.rank]) ?? [])
  const rank = ({ configurationId }: ConfigurationResult): number => ranks.get(configurationId) ?? Infinity
  return configurations.filter(({ configurationId }) => !of || of.includes(configurationId))
    .sort((a, b) => rank(a) - rank(b))
}

function leadOf(
  all: readonly MatrixCell[], ordered: readonly ConfigurationResult[], pressurePa: Uncertain,
  isGrounded: (id: string) => boolean,
): Lead {
  const [best, ...others] = ordered.map(({ configurationId }) => configurationId)
  const cellOf = (id: string): MatrixCell | undefined =>
    all.find(({ comparison }) => isPair(comparison, best ?? '', id))
  const tiedWith = others.filter((id) => !cellOf(id)?.distinct)
  const other = tiedWith[0] ?? others[0]
  if (other === undefined) return { kind: 'only', other: null, othersCount: 0, tiedWith: [], byN: null, probability: null }
  const cell = cellOf(other)
  const turned = cell?.comparison.configurationA !== best
  return {
    kind: tiedWith.length === 0 ? 'clear' : cell?.holmP === null || !cell ? 'untold' : 'close', other, othersCount: others.length, tiedWith,
    byN: !cell || isGrounded(other) ? null
      : statementOf(timesPositive(turnedIf(turned, cell.comparison.total.differenceM2.claim), pressurePa)),
    probability: cell ? probabilityOf(cell.comparison.total.probabilityLarger, turned) : null,
  }
}

const turnedIf = (turned: boolean, claim: Claim): Claim => (turned ? scaleClaim(claim, -1) : claim)

function probabilityOf(said: Probability, turned: boolean): Probability | null {
  if (said.kind === 'untold' || !turned) return said.kind === 'untold' ? null : said
  const kinds = { is: 'is', atLeast: 'atMost', atMost: 'atLeast' } as const
  return { kind: kinds[said.kind], value: 1 - said.value }
}

function balanceOf({ balance: { frontShare, staticFrontShare, shift } }: ConfigurationAero): BalanceAnswer {
  const [low, high] = endsOf(shift)
  const tendency = shift.kind === 'untold' || staticFrontShare.kind === 'untold' ? 'untold'
    : high < 0 ? 'understeer' : low > 0 ? 'oversteer' : shift.kind === 'interval' ? 'keeps' : 'untold'
  const slight = shift.kind === 'interval' && Math.abs(shift.value) < SLIGHT
  return { frontShare, staticFrontShare, shift, tendency, slight }
}

/** What a statement leaves open at either side. */
export function endsOf(said: Statement): readonly [number, number] {
  switch (said.kind) {
    case 'interval': return [said.interval.low, said.interval.high]
    case 'atLeast': return [said.bound, Infinity]
    case 'atMost': return [-Infinity, said.bound]
    case 'between': return [said.low, said.high]
    case 'untold': return [-Infinity, Infinity]
  }
}

function touchOf({ touchDowns }: ConfigurationResult, down: boolean): TouchAnswer {
  const { axles, firstMs } = touchDowns
  if (firstMs.kind === 'untold') {
    const never = AXLES.every((axle) => axles[axle].kind === 'never')
    return { kind: never ? 'never' : 'untold', axle: null, speedMs: firstMs, down }
  }
  const axle = firstToTouch(touchDowns)
  return { kind: axles[axle].kind === 'diverges' ? 'diverges' : 'touches', axle, speedMs: firstMs, down }
}

function costOf({ costs }: Results, best: ConfigurationResult, other: string | null, speedMs: number): CostAnswer {
  const id = best.configurationId
  const own = costs.setups.find(({ configurationId }) => configurationId === id)
  const pressurePa = pressureAt(best.aero.densityKgM3, speedMs)
  const pair = costs.pairs.find((each) => isPair(each, id, other))
  const laps = costs.courses.flatMap(({ name, result }) =>
    (result?.differences ?? []).filter((each) => isPair(each, id, other)).map((each) => ({
      course: name, lapS: each.configurationA === id ? each.lapS : negated(each.lapS),
    })))
  return {
    dragN: own ? statementOf(timesPositive(own.cdaM2.claim, pressurePa)) : null,
    loadPerDrag: own?.loadPerDrag ?? null,
    moreDragN: pair
      ? statementOf(timesPositive(turnedIf(pair.configurationA !== id, pair.cdaM2.claim), pressurePa)) : null,
    lap: laps[0] ?? null,
  }
}

const isPair = (
  { configurationA: a, configurationB: b }: Pick<CostOfPair, 'configurationA' | 'configurationB'>, id: string,
  other: string | null,
): boolean => (a === id && b === other) || (a === other && b === id)

/** What is said of a quantity, said of its negative. */
export function negated(said: Statement): Statement {
  switch (said.kind) {
    case 'interval': return {
      ...said, value: -said.value, interval: turnedEnds(said.interval),
      shortest: said.shortest && turnedEnds(said.shortest),
    }
    case 'atLeast': return { ...said, kind: 'atMost', bound: -said.bound }
    case 'atMost': return { ...said, kind: 'atLeast', bound: -said.bound }
    case 'between': return { ...said, low: -said.high, high: -said.low }
    case 'untold': return said
  }
}

const turnedEnds = <T extends { readonly low: number; readonly high: number }>(ends: T): T =>
  ({ ...ends, low: -ends.high, high: -ends.low })

function airSpeedHalf({ whole: { total } }: ConfigurationAero): number | null {
  const halves = total.points.flatMap(({ speedMs }) =>
    (speedMs.value > 0 ? [(COVERAGE_FACTOR * standardUncertainty(speedMs)) / speedMs.value] : []))
  return halves.length > 0 ? Math.max(...halves) : null
}

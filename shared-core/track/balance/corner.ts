/**
 * A corner: what each axle carries of what it needs. On a steady circle an axle needs its share of the weight
 * times v^2/R; it carries its grip coefficient times its load, weight and air. The coefficient is one for
 * both axles (common practice, no source) and falls with load as the tyres' law says, so that it leaves the
 * comparison of the two: the axle that carries the smaller share gives way first.
 */
import { AXLES, type Axle } from '@core/schema'
import { combine, monotone, statementOf, untold, type Claim, type Statement, type Uncertain } from '@core/uncertainty'
import type { BenchLoads, CarWeight, Sensitivity } from '../types'

export interface CornerBalance {
  readonly configurationId: string
  readonly speedMs: number
  /** What the front carries of what it needs, over the same of the rear: 1 is neutral. */
  readonly frontOverRear: Statement
  /** Share of its need that each axle carries; untold without a radius or a grip. */
  readonly carried: Readonly<Record<Axle, Statement>>
  readonly tendency: 'understeer' | 'oversteer' | 'neutral' | 'untold'
}

/** Grip of the tyres from a level held: a = mu g ((W + F)/W)^(1 - s), mu at the car's weight. */
export interface Grip { readonly levelMs2: Uncertain; readonly loadN: Claim }

/** (1 + F_f/W_f)/(1 + F_r/W_r) to the power of 1 - s. */
function ratioOf(
  front: Uncertain, rear: Uncertain, weights: Readonly<Record<Axle, Uncertain>>, sensitivity: Uncertain,
): Uncertain {
  const [wf, wr] = [weights.front.value, weights.rear.value]
  const [a, b] = [1 + front.value / wf, 1 + rear.value / wr]
  const power = 1 - sensitivity.value
  const ratio = (a / b) ** power
  return combine(ratio, [
    [front, (power * ratio) / a / wf], [rear, (-power * ratio) / b / wr],
    [weights.front, (-power * ratio * front.value) / a / wf ** 2],
    [weights.rear, (power * ratio * rear.value) / b / wr ** 2], [sensitivity, -ratio * Math.log(a / b)],
  ])
}

/** Grip over need of one axle: (level/(v^2/R)) times ((1 + F/W)/(1 + F0/W0))^(1 - s), F0 the load at the level. */
function carriedOf(
  load: Uncertain, weight: Uncertain, at: { level: Uncertain; loadN: Uncertain; totalN: Uncertain; need: number },
  sensitivity: Uncertain,
): Uncertain {
  const power = 1 - sensitivity.value
  const [own, whole] = [1 + load.value / weight.value, 1 + at.loadN.value / at.totalN.value]
  const value = (at.level.value / at.need) * (own / whole) ** power
  return combine(value, [
    [at.level, value / at.level.value], [load, (power * value) / own / weight.value],
    [at.loadN, (-power * value) / whole / at.totalN.value], [sensitivity, -value * Math.log(own / whole)],
  ])
}

/**
 * What a configuration does in a corner; null where the bench or the axle weights say nothing.
 *
 * @param corner its speed, and its radius where shares of need are wanted
 * @param grip what the same configuration held on a circle, and the load that it had there
 */
export function cornerBalance(
  bench: BenchLoads, { totalN, axlesN }: CarWeight, { sensitivity }: Sensitivity, configurationId: string,
  corner: { readonly speedMs: number; readonly radiusM: number | null }, grip: Grip | null,
): CornerBalance | null {
  const load = bench.loadAt(configurationId, { value: corner.speedMs, parts: [] })
  if (!load || !axlesN) return null
  const ratio = monotone(load.axles.front, load.axles.rear, 'falls', (front, rear) =>
    ratioOf(front, rear, axlesN, sensitivity))
  const frontOverRear = statementOf(ratio)
  const need = corner.radiusM === null ? null : corner.speedMs ** 2 / corner.radiusM
  const carried = (axle: Axle): Statement => {
    if (need === null || !grip) return untold('missing', { code: 'noGrip' })
    return statementOf(monotone(load.axles[axle], grip.loadN, 'falls', (own, whole) =>
      carriedOf(own, axlesN[axle], { level: grip.levelMs2, loadN: whole, totalN, need }, sensitivity)))
  }
  return {
    configurationId, speedMs: corner.speedMs, frontOverRear,
    carried: Object.fromEntries(AXLES.map((axle) => [axle, carried(axle)])) as Record<Axle, Statement>,
    tendency: tendencyOf(frontOverRear),
  }
}

function tendencyOf(said: Statement): CornerBalance['tendency'] {
  switch (said.kind) {
    case 'interval': return said.interval.high < 1 ? 'understeer' : said.interval.low > 1 ? 'oversteer' : 'neutral'
    case 'atLeast': return said.bound > 1 ? 'oversteer' : 'untold'
    case 'atMost': return said.bound < 1 ? 'understeer' : 'untold'
    case 'between': return said.high < 1 ? 'understeer' : said.low > 1 ? 'oversteer' : 'untold'
    case 'untold': return 'untold'
  }
}

/**
 * What the bench lets expect of the track. With grip mu = mu0 (W/W0)^-s the force that tyres can
 * take is mu W, proportional to W^(1-s), and the car's mass does not grow with the air's load: the
 * level goes with ((W + F_after)/(W + F_before))^(1-s).
 */
import { AXLES, type Axle } from '@core/schema'
import {
  combine, highEnd, lowEnd, monotone, told, untold, type Claim, type Told, type Uncertain,
} from '@core/uncertainty'
import type { BenchLoad, BenchLoads, CarWeight, ExpectedGain, Sensitivity } from './types'

/** Relative gain for given loads, ((W + after)/(W + before))^(1 - s) - 1, with all first-order terms. */
export function gainFromLoads(
  after: Uncertain, before: Uncertain, weight: Uncertain, sensitivity: Uncertain,
): Uncertain {
  const loadAfter = weight.value + after.value
  const loadBefore = weight.value + before.value
  const power = 1 - sensitivity.value
  const ratio = (loadAfter / loadBefore) ** power
  return combine(ratio - 1, [
    [after, (power * ratio) / loadAfter],
    [before, (-power * ratio) / loadBefore],
    [weight, power * ratio * (1 / loadAfter - 1 / loadBefore)],
    [sensitivity, -ratio * Math.log(loadAfter / loadBefore)],
  ])
}

/** The gain over all that two claims leave open: "at least" in the load after makes it "at least". */
export function gainClaim(after: Claim, before: Claim, weight: Uncertain, sensitivity: Uncertain): Claim {
  const ends = [lowEnd(after), highEnd(after), lowEnd(before), highEnd(before)]
  if (ends.some((end) => end !== null && end.value <= -weight.value)) {
    return untold('beyondCalibratedRange', { code: 'allLift' })
  }
  return monotone(after, before, 'falls', (a, b) => gainFromLoads(a, b, weight, sensitivity))
}

/**
 * The load after, N, that a gain needs: (W + before)(1 + gain)^(1/(1-s)) - W, the inverse of `gainFromLoads`.
 *
 * @param gain relative, above -1
 */
export function neededLoad(gain: Uncertain, before: Uncertain, weight: Uncertain, sensitivity: Uncertain): Uncertain {
  const power = 1 / (1 - sensitivity.value)
  const growth = (1 + gain.value) ** power
  const load = weight.value + before.value
  return combine(load * growth - weight.value, [
    [gain, (load * power * growth) / (1 + gain.value)], [before, growth], [weight, growth - 1],
    [sensitivity, load * growth * Math.log1p(gain.value) * power ** 2],
  ])
}

/**
 * Expected gain from one configuration to another at the speeds they were driven. Null where the
 * bench knows nothing of one of them.
 *
 * @param speeds road speeds held before and after
 */
export function expectedGain(
  bench: BenchLoads, weight: CarWeight, sensitivity: Sensitivity,
  beforeId: string, afterId: string, speeds: { before: Uncertain; after: Uncertain },
): ExpectedGain | null {
  const before = bench.loadAt(beforeId, speeds.before)
  const after = bench.loadAt(afterId, speeds.after)
  if (!before || !after) return null
  const gain = (of: (load: BenchLoad) => Claim, resting: Uncertain): Told =>
    told(gainClaim(of(after), of(before), resting, sensitivity.sensitivity))
  const perAxle = (axle: Axle): Told => {
    const resting = weight.axlesN?.[axle]
    if (!resting) return told(untold('missing', { code: 'noAxleWeights' }))
    return gain((load) => load.axles[axle], resting)
  }
  return {
    total: gain((load) => load.total, weight.totalN),
    axles: Object.fromEntries(AXLES.map((axle) => [axle, perAxle(axle)])) as Record<Axle, Told>,
    beforeN: told(before.total), afterN: told(after.total), sensitivity,
  }
}

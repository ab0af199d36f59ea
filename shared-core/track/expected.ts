/**
 * What the bench lets expect of the track. With grip mu = mu0 (W/W0)^-s the force that tyres can
 * take is mu W, proportional to W^(1-s), and the car's mass does not grow with the air's load: the
 * level goes with ((W + F_after)/(W + F_before))^(1-s).
 */
import { AXLES, type Axle } from '@core/schema'
import {
  boundedClaim, combine, highEnd, lowEnd, monotone, told, untoldClaim, type Claim, type Told, type Uncertain,
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
    return untoldClaim('beyondCalibratedRange', 'the lift would carry the whole car')
  }
  return monotone(after, before, 'falls', (a, b) => gainFromLoads(a, b, weight, sensitivity))
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
    if (!resting) return told(untoldClaim('missing', 'the weight on each axle is not known'))
    return gain((load) => load.axles[axle], resting)
  }
  return {
    total: gain((load) => load.total, weight.totalN),
    axles: Object.fromEntries(AXLES.map((axle) => [axle, perAxle(axle)])) as Record<Axle, Told>,
    beforeN: told(before.total), afterN: told(after.total), sensitivity,
  }
}

/** What a circle would be driven at after a change, from what it was driven at before. */
export interface CirclePrediction {
  readonly speedMs: number
  readonly levelMs2: Told
  readonly gain: Told
}

const MOST_STEPS = 200

/**
 * Before anything is driven with the new configuration: the circle's speed and level where tyre grip
 * and air load meet, v^2/R = a_before ((W + F_after(v))/(W + F_before))^(1-s), found by iteration
 * from the speed before. The load's growth with the speed it makes itself multiplies every
 * uncertainty; that factor is taken from the slope at the solution. Null where the bench knows
 * nothing, or no speed is found (the load grows faster than the tyres need it).
 */
export function predictCircle(
  bench: BenchLoads, weight: CarWeight, sensitivity: Sensitivity, beforeId: string, afterId: string,
  held: { levelMs2: Uncertain; speedMs: Uncertain; radiusM: number },
): CirclePrediction | null {
  const before = bench.loadAt(beforeId, held.speedMs)
  if (!before) return null
  const gainAt = (speedMs: number): Claim | null => {
    const after = bench.loadAt(afterId, { value: speedMs, parts: [] })
    return after && gainClaim(after.total, before.total, weight.totalN, sensitivity.sensitivity)
  }
  const ends = [lowEnd, highEnd].map((end) => solveEnd(gainAt, end, held))
  const [low, high] = ends
  const at = gainAt(low?.speedMs ?? high?.speedMs ?? held.speedMs.value)
  if (!at || at.kind === 'untold' || (!low && !high)) return null
  const gain: Claim = at.kind === 'value' && low
    ? { kind: 'value', value: low.gain, extrapolated: at.extrapolated }
    : boundedClaim(low?.gain ?? null, high?.gain ?? null, at.kind === 'value' ? 'missing' : at.reason)
  const level = monotone(gain, { kind: 'value', value: held.levelMs2, extrapolated: false }, 'rises', (g, a) =>
    combine(a.value * (1 + g.value), [[g, a.value], [a, 1 + g.value]]))
  return { speedMs: (low ?? high)!.speedMs, levelMs2: told(level), gain: told(gain) }
}

/** The fixed point for one end of the load's claim, with the feedback in its uncertainty. */
function solveEnd(
  gainAt: (speedMs: number) => Claim | null, end: (claim: Claim) => Uncertain | null,
  held: { levelMs2: Uncertain; speedMs: Uncertain; radiusM: number },
): { speedMs: number; gain: Uncertain } | null {
  const next = (speedMs: number): number | null => {
    const claim = gainAt(speedMs)
    const gain = claim && end(claim)
    return gain ? Math.sqrt(held.levelMs2.value * (1 + gain.value) * held.radiusM) : null
  }
  let speed = held.speedMs.value
  for (let step = 0; step < MOST_STEPS; step++) {
    const moved = next(speed)
    if (moved === null || !Number.isFinite(moved) || moved > 20 * held.speedMs.value) return null
    if (Math.abs(moved - speed) <= 1e-10 * speed) return finished(gainAt, end, moved, next)
    speed = moved
  }
  return null
}

function finished(
  gainAt: (speedMs: number) => Claim | null, end: (claim: Claim) => Uncertain | null, speed: number,
  next: (speedMs: number) => number | null,
): { speedMs: number; gain: Uncertain } | null {
  const claim = gainAt(speed)
  const gain = claim && end(claim)
  const step = speed * 1e-4
  const [up, down] = [next(speed + step), next(speed - step)]
  if (!gain || up === null || down === null) return null
  const feedback = (up - down) / (2 * step)
  if (!(feedback < 1)) return null
  return { speedMs: speed, gain: combine(gain.value, [[gain, 1 / (1 - feedback)]]) }
}

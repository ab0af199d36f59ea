/** How many runs a wished difference needs, in whole runs: a part of a run can't be made. */
import { repeatsNeeded, type Comparison, type ConfigurationAero, type Measure } from '@core/aero'

export type RunsNeeded =
  | { readonly kind: 'enough' }
  /** Runs in all of each set-up, and those it has now. */
  | { readonly kind: 'runs'; readonly runs: readonly [number, number]; readonly now: readonly [number, number] }
  /** The difference that is the least to be found however often is repeated, m^2. */
  | { readonly kind: 'outOfReach'; readonly leastM2: number }
  | { readonly kind: 'untold' }

/** Runs of a set-up that took part in a comparison of a measure. */
const runsIn = (aero: ConfigurationAero, measure: Measure): number =>
  (measure === 'asRead' ? aero.whole : aero).total.points.filter(({ weight }) => weight > 0).length

/** The core's factor on the present runs, as whole runs of each of the two. */
export function runsNeeded(
  comparison: Comparison, pair: readonly [ConfigurationAero, ConfigurationAero], wishedM2: number,
): RunsNeeded {
  const needed = repeatsNeeded(comparison, wishedM2)
  if (needed.kind !== 'times') return needed
  const found = comparison.smallestDetectableM2 !== null && wishedM2 >= comparison.smallestDetectableM2
  if (found) return { kind: 'enough' }
  const now = [runsIn(pair[0], comparison.measure), runsIn(pair[1], comparison.measure)] as const
  if (now[0] === 0 || now[1] === 0) return { kind: 'untold' }
  // What is not found yet needs one run more at the least, whatever the factor rounds to.
  const whole = (count: number): number => Math.max(count + 1, Math.ceil(count * needed.factor - 1e-9))
  return { kind: 'runs', runs: [whole(now[0]), whole(now[1])], now }
}

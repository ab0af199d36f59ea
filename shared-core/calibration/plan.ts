/** The squat test that the live bench leads through: which loads, in which order, what to do before each reading. */
import { loadMass } from '@core/chassis'
import type { Chassis, PlacedLoad, SquatSession, SquatStep } from '@core/schema'
import { Stream } from '@core/uncertainty'

/** What the builder does for a step, in this order. */
export type PlanAction =
  | 'takeAllOff' | 'layOn' | 'takeOff' | 'tap' | 'bounceTwice' | 'wait' | 'lookUnderTray' | 'readCorners'

export interface PlannedStep {
  readonly branch: SquatStep['branch']
  readonly ramp: number
  readonly placed: readonly PlacedLoad[]
  readonly actions: readonly PlanAction[]
}

export interface PlanOptions {
  readonly order: SquatSession['setup']['order']
  readonly settle: SquatSession['setup']['settle']
  /** Ramps, 1 to 20; for `random` the rounds in which every load comes once. */
  readonly ramps: number
  /** Different heaps of loads, 1 to 20; fewer where there are fewer loads. */
  readonly heaps: number
  /** Where the loads are laid: one heap on each place named. */
  readonly placesMm: readonly { readonly xMm: number; readonly yMm: number }[]
  readonly uPlaceMm: number
  /** For the random order. Same seed, same order. */
  readonly seed: number
}

/**
 * A whole session: zero, ramps with a zero after each. Up and down adds one load after the other and
 * takes them off again; up only starts again from the empty car; random reaches every heap from the
 * empty car, in an order drawn anew for each round.
 *
 * Loads without a mass are left out. With several places the loads are dealt out to them, heaviest
 * first, so that all places carry about the same.
 */
export function plan(chassis: Chassis, options: PlanOptions): PlannedStep[] {
  const heaps = heapsOf(chassis, options)
  const steps: PlannedStep[] = [step('zero', 1, [], options, true)]
  const stream = new Stream(options.seed, 0)
  for (let ramp = 1; ramp <= options.ramps && heaps.length > 0; ramp++) {
    const rising = options.order === 'random' ? shuffled(heaps, stream) : heaps
    rising.forEach((placed) => steps.push(step('loading', ramp, placed, options)))
    if (options.order === 'upDown') {
      heaps.slice(0, -1).reverse().forEach((placed) => steps.push(step('unloading', ramp, placed, options)))
    }
    steps.push(step('zero', ramp, [], options))
  }
  return steps
}

function step(
  branch: SquatStep['branch'], ramp: number, placed: readonly PlacedLoad[], { settle, order }: PlanOptions, first = false,
): PlannedStep {
  const lay: PlanAction[] = branch === 'zero' ? ['takeAllOff']
    : branch === 'unloading' ? ['takeOff'] : order === 'random' ? ['takeAllOff', 'layOn'] : ['layOn']
  // The first zero is settled whatever the routine: friction must not decide where it lies.
  const routine: PlanAction[] = first || settle === 'bounce' ? ['bounceTwice'] : settle === 'tap' ? ['tap'] : []
  const look: PlanAction[] = branch === 'loading' ? ['lookUnderTray'] : []
  return { branch, ramp, placed, actions: [...lay, ...routine, 'wait', ...look, 'readCorners'] }
}

/** Nested heaps of about evenly growing mass. */
function heapsOf(chassis: Chassis, { heaps, placesMm, uPlaceMm }: PlanOptions): PlacedLoad[][] {
  const loads = chassis.loads.flatMap(({ id }) => {
    const mass = loadMass(chassis, id)
    return 'massKg' in mass && mass.massKg.value > 0 ? [{ id, kg: mass.massKg.value }] : []
  }).sort((a, b) => b.kg - a.kg)
  if (loads.length === 0 || placesMm.length === 0) return []
  const piles = placesMm.map((place) => ({ place, kg: 0, ids: [] as string[] }))
  for (const { id, kg } of loads) {
    const lightest = piles.reduce((least, each) => (each.kg < least.kg ? each : least))
    lightest.kg += kg
    lightest.ids.push(id)
  }
  const most = Math.max(...piles.map(({ ids }) => ids.length))
  const count = Math.min(heaps, most)
  return Array.from({ length: count }, (_, i) => piles.flatMap(({ place, ids }) => {
    // Lightest first, so that the first heaps are small.
    const grown = [...ids].reverse().slice(0, Math.ceil((ids.length * (i + 1)) / count))
    return grown.map((loadId): PlacedLoad => ({ loadId, xMm: place.xMm, yMm: place.yMm, uPlaceMm }))
  }))
}

function shuffled<T>(values: readonly T[], stream: Stream): T[] {
  const list = [...values]
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(stream.uniform() * (i + 1))
    ;[list[i], list[j]] = [list[j]!, list[i]!]
  }
  return list
}

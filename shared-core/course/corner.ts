/**
 * Level that set-ups hold in a corner of one radius: where grip under air load and what the corner takes meet, power
 * and drag left out. Uncertainties by draws of the shared sources (JCGM 101:2008, 7), as those of a lap.
 */
import { monteCarloNow, trialsOf, type CensorReason, type Statement, type Uncertain } from '@core/uncertainty'
import { cornerSpeed } from './lap'
import { propagate, statement, type Bound } from './outcomes'
import type { Car } from './types'

/** What a set-up holds a corner by; SI. */
export interface CornerCar {
  readonly configurationId: string
  readonly massKg: Uncertain
  readonly gripMs2: Uncertain
  readonly sensitivity: Uncertain
  readonly claM2: Uncertain
  readonly densityKgM3: Uncertain
  /** Load at which the tray is down, N; Infinity where it is not known to touch. */
  readonly mostLoadN: number
  /** Why the air load is only a lower bound, null where it is a value. */
  readonly boundOnly: CensorReason | null
}

export interface CornerLevels {
  readonly radiusM: number
  readonly outcomes: readonly { readonly configurationId: string; readonly levelMs2: Statement }[]
  /** Every pair once: level of A less that of B. */
  readonly differences: readonly {
    readonly configurationA: string
    readonly configurationB: string
    readonly levelMs2: Statement
  }[]
}

/** A car that still holds the corner at this speed, m/s, holds it at any: its load outgrows what the corner takes. */
const FASTEST_MS = 200
const DRAWS = 2000
const SEED = 20_118
const INPUTS = 5

const inputsOf = (car: CornerCar): Uncertain[] => [car.massKg, car.gripMs2, car.sensitivity, car.claM2, car.densityKgM3]

/** Speed at which a car of one draw leaves the corner; NaN where it holds it at any. */
function speedOf(
  values: ArrayLike<number>, from: number, { mostLoadN }: CornerCar, radiusM: number, g: number,
): number {
  const at = (i: number): number => values[from + i]!
  const car: Car = {
    massKg: at(0), movingMassKg: at(0), weightN: at(0) * g, gripMs2: at(1), sensitivity: at(2),
    loadNPerMs2: (at(4) / 2) * at(3), mostLoadN, steadyN: 0, squareNPerMs2: 0, powerW: Infinity, drivenShare: 1,
  }
  const v = cornerSpeed(car, 1 / radiusM, FASTEST_MS)
  return v < FASTEST_MS ? v : NaN
}

/**
 * Levels of all set-ups and of every pair.
 *
 * @param radiusM of the path of the centre of gravity, above 0
 * @param gravityMs2 local gravity
 */
export function cornerLevels(radiusM: number, gravityMs2: number, cars: readonly CornerCar[]): CornerLevels {
  const inputs = cars.flatMap(inputsOf)
  const pairs = cars.flatMap((_, a) => cars.slice(a + 1).map((__, k) => [a, a + 1 + k] as const))
  const model = (values: ArrayLike<number>, outputs: { [index: number]: number }): void => {
    cars.forEach((car, c) => {
      outputs[c] = speedOf(values, c * INPUTS, car, radiusM, gravityMs2) ** 2 / radiusM
    })
    pairs.forEach(([a, b], p) => {
      outputs[cars.length + p] = outputs[a]! - outputs[b]!
    })
  }
  const count = cars.length + pairs.length
  const trials = monteCarloNow(trialsOf([{ weight: 1, inputs, model }], count), { seed: SEED, fixedTrials: DRAWS })
  const propagated = propagate(inputs, model, count)
  const stated = (k: number, bound: Bound): Statement =>
    statement(trials.outputs[k]!, propagated[k]!, bound, { code: 'holdsAnySpeed' })
  const bounds = cars.map((car, c): CensorReason | null => {
    if (car.boundOnly) return car.boundOnly
    const loadN = (car.densityKgM3.value / 2) * car.claM2.value * propagated[c]!.value * radiusM
    return loadN >= car.mostLoadN ? 'touchedGround' : null
  })
  const side = (atLeast: CensorReason | null, atMost: CensorReason | null): Bound => {
    if (atLeast && atMost) return { side: 'untold', reason: atLeast }
    if (atLeast) return { side: 'atLeast', reason: atLeast }
    return atMost ? { side: 'atMost', reason: atMost } : { side: 'none' }
  }
  return {
    radiusM,
    outcomes: cars.map(({ configurationId }, c) => ({ configurationId, levelMs2: stated(c, side(bounds[c]!, null)) })),
    differences: pairs.map(([a, b], p) => ({
      configurationA: cars[a]!.configurationId, configurationB: cars[b]!.configurationId,
      levelMs2: stated(cars.length + p, side(bounds[a]!, bounds[b]!)),
    })),
  }
}

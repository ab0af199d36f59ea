/**
 * Laps, launches and top speeds of set-ups with their uncertainties: every source drawn once for all
 * set-ups (JCGM 101:2008, 7), so that what they share leaves the differences by itself.
 */
import {
  combine,
  COVERAGE_PROBABILITY,
  monteCarloNow,
  monteCarloStatement,
  trialsOf,
  untold,
  type CensorReason,
  type OutputResult,
  type Statement,
  type Uncertain,
  type Untold,
} from '@core/uncertainty'
import { lapTime, launchTime, pathOf, segmentTimes, topSpeed, workFor, type Path, type Work } from './lap'
import type { Car, CourseDifference, CourseOutcome, CourseResult, Segment, UncertainCar } from './types'

export interface CourseAsked {
  readonly courseId: string
  readonly name: string
  readonly segments: readonly Segment[]
  /** Distance of the launch from rest, m. */
  readonly launchM: number
  readonly gravityMs2: number
}

/** Draws of the stated intervals: two digits of their ends stand (JCGM 101, 7.2.3). */
const DRAWS = 2000
const SEED = 20_117
/** Outputs of one set-up, in order. */
const LAP = 0
const TOP = 1
const LAUNCH = 2
const EACH = 3

const inputsOf = (car: UncertainCar): Uncertain[] => [
  car.massKg,
  car.rotatingShare,
  car.gripMs2,
  car.sensitivity,
  car.claM2,
  car.cdaM2,
  car.rollingShare,
  car.densityKgM3,
  car.powerW,
]
const INPUTS = 9

/** The car of one draw. Downforce presses the tyres, which roll the harder for it. */
function carOf(
  values: ArrayLike<number>,
  from: number,
  { drivenShare, mostLoadN }: UncertainCar,
  gravityMs2: number,
): Car {
  const at = (i: number): number => values[from + i]!
  const [massKg, rolling, density] = [at(0), at(6), at(7)]
  const weightN = massKg * gravityMs2
  return {
    massKg,
    weightN,
    movingMassKg: massKg * (1 + at(1)),
    gripMs2: at(2),
    sensitivity: at(3),
    loadNPerMs2: (density / 2) * at(4),
    mostLoadN,
    steadyN: Math.max(0, rolling * weightN),
    squareNPerMs2: (density / 2) * (at(5) + rolling * at(4)),
    powerW: at(8),
    drivenShare,
  }
}

/** Lap, top speed and launch of one car. */
const figuresOf = (car: Car, path: Path, work: Work, launchM: number): [number, number, number] => [
  lapTime(car, path, work),
  topSpeed(car),
  launchTime(car, launchM),
]

/**
 * A course driven with every set-up, and every set-up against the ones after it.
 *
 * @param cars two or more for differences; all in the same session's units and sources
 * @returns null for a course without length
 */
export function driveCourse(asked: CourseAsked, cars: readonly UncertainCar[]): CourseResult | null {
  const path = pathOf(asked.segments)
  if (!path || cars.length === 0) return null
  const work = workFor(path)
  const inputs = cars.flatMap(inputsOf)
  const pairs = cars.flatMap((_, a) => cars.slice(a + 1).map((__, k) => [a, a + 1 + k] as const))
  const model = (values: ArrayLike<number>, outputs: { [index: number]: number }): void => {
    cars.forEach((car, c) => {
      figuresOf(carOf(values, c * INPUTS, car, asked.gravityMs2), path, work, asked.launchM).forEach((figure, k) => {
        outputs[c * EACH + k] = Number.isFinite(figure) ? figure : NaN
      })
    })
    pairs.forEach(([a, b], p) => {
      for (let k = 0; k < EACH; k++)
        outputs[(cars.length + p) * EACH + k] = outputs[a * EACH + k]! - outputs[b * EACH + k]!
    })
  }
  const outputCount = (cars.length + pairs.length) * EACH
  const trials = monteCarloNow(trialsOf([{ weight: 1, inputs, model }], outputCount), {
    seed: SEED,
    fixedTrials: DRAWS,
  })
  const propagated = propagate(inputs, model, outputCount)
  const drawn = cars.map((car, c) => atEstimates(car, c, inputs, path, work, asked))
  const stated = (k: number, bound: Bound): Statement => statement(trials.outputs[k]!, propagated[k]!, bound)
  return {
    courseId: asked.courseId,
    name: asked.name,
    lengthM: path.lengthM,
    outcomes: cars.map((car, c): CourseOutcome => {
      const own = boundOf(car, drawn[c]!.pastTouchDown)
      return {
        configurationId: car.configurationId,
        ...drawn[c]!,
        lapS: stated(c * EACH + LAP, own),
        topSpeedMs: stated(c * EACH + TOP, own),
        launchS: stated(c * EACH + LAUNCH, boundOf(car, false)),
      }
    }),
    differences: pairs.map(([a, b], p): CourseDifference => {
      const at = (cars.length + p) * EACH
      const ends = [boundOf(cars[a]!, drawn[a]!.pastTouchDown), boundOf(cars[b]!, drawn[b]!.pastTouchDown)] as const
      const bound = differenceBound(...ends)
      const values = trials.outputs[at + LAP]!.values
      return {
        configurationA: cars[a]!.configurationId,
        configurationB: cars[b]!.configurationId,
        lapS: stated(at + LAP, bound),
        topSpeedMs: stated(at + TOP, bound),
        launchS: stated(at + LAUNCH, differenceBound(boundOf(cars[a]!, false), boundOf(cars[b]!, false))),
        probabilityQuicker:
          bound.side === 'none' ? values.reduce((sum, each) => sum + (each < 0 ? 1 : 0), 0) / values.length : null,
        segmentsS: drawn[a]!.segmentsS.map((time, i) => time - drawn[b]!.segmentsS[i]!),
        breakEvenW: breakEven(cars[a]!, cars[b]!, path, work, asked),
      }
    }),
  }
}

interface Drawn {
  readonly segmentsS: readonly number[]
  readonly leastMs: number
  readonly mostMs: number
  readonly pastTouchDown: boolean
}

function atEstimates(
  car: UncertainCar,
  c: number,
  inputs: readonly Uncertain[],
  path: Path,
  work: Work,
  asked: CourseAsked,
): Drawn {
  const own = carOf(
    inputs.map(({ value }) => value),
    c * INPUTS,
    car,
    asked.gravityMs2,
  )
  lapTime(own, path, work)
  const speeds = work.speed.subarray(0, path.stepM.length)
  const mostMs = speeds.reduce((most, each) => Math.max(most, each), 0)
  return {
    segmentsS: segmentTimes(path, work),
    leastMs: speeds.reduce((least, each) => Math.min(least, each), Infinity),
    mostMs,
    pastTouchDown: own.loadNPerMs2 * mostMs * mostMs > car.mostLoadN,
  }
}

/** More load only makes the lap shorter: a lap from a lower bound of the load is an upper bound. */
export type Bound =
  { readonly side: 'none' } | { readonly side: 'atMost' | 'atLeast' | 'untold'; readonly reason: CensorReason }

function boundOf({ boundOnly }: UncertainCar, pastTouchDown: boolean): Bound {
  if (boundOnly) return { side: 'atMost', reason: boundOnly }
  return pastTouchDown ? { side: 'atMost', reason: 'touchedGround' } : { side: 'none' }
}

function differenceBound(a: Bound, b: Bound): Bound {
  if (a.side === 'none' && b.side === 'none') return a
  if (a.side !== 'none' && b.side !== 'none') return { side: 'untold', reason: a.reason }
  return a.side !== 'none' ? a : { side: 'atLeast', reason: (b as Exclude<Bound, { side: 'none' }>).reason }
}

export function statement(
  trials: OutputResult, propagated: Uncertain, bound: Bound, undefinedBecause: Untold = { code: 'notRound' },
): Statement {
  if (trials.undefinedShare > 1 - COVERAGE_PROBABILITY || !Number.isFinite(propagated.value)) {
    return untold('missing', undefinedBecause)
  }
  if (bound.side === 'none') return monteCarloStatement(trials, propagated)
  if (bound.side === 'untold') return untold(bound.reason, { code: 'bothLapsBounds' })
  const sorted = trials.values.slice().sort()
  const place = Math.floor((bound.side === 'atMost' ? COVERAGE_PROBABILITY : 1 - COVERAGE_PROBABILITY) * (sorted.length - 1))
  return { kind: bound.side, bound: sorted[place]!, probability: COVERAGE_PROBABILITY, reason: bound.reason }
}

/** First-order dependence of every output on every input, by central differences of one half u each way. */
export function propagate(
  inputs: readonly Uncertain[],
  model: (values: ArrayLike<number>, outputs: { [index: number]: number }) => void,
  outputCount: number,
): Uncertain[] {
  const values = inputs.map(({ value }) => value)
  const run = (at: readonly number[]): number[] => {
    const outputs = new Array<number>(outputCount).fill(NaN)
    model(at, outputs)
    return outputs
  }
  const here = run(values)
  const slopes = inputs.map((input, i) => {
    const u = Math.sqrt(input.parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0))
    if (u === 0) return null
    const moved = (by: number): number[] => run(values.map((each, j) => (i === j ? each + by : each)))
    const [up, down] = [moved(u / 2), moved(-u / 2)]
    return up.map((each, k) => (each - down[k]!) / u)
  })
  return here.map((value, k) =>
    combine(
      value,
      inputs.flatMap((input, i) => {
        const slope = slopes[i]?.[k]
        return slope !== undefined && Number.isFinite(slope) ? [[input, slope] as const] : []
      }),
    ),
  )
}

/** Powers between which the break-even is looked for, as factors of the present one. */
const LEAST_POWER = 0.2
const MOST_POWER = 20

/** Power at which two set-ups need as long, at the estimates; both take the same power. */
function breakEven(
  a: UncertainCar,
  b: UncertainCar,
  path: Path,
  work: Work,
  { gravityMs2 }: CourseAsked,
): number | null {
  const [one, other] = [a, b].map((car) =>
    carOf(
      inputsOf(car).map(({ value }) => value),
      0,
      car,
      gravityMs2,
    ),
  ) as [Car, Car]
  const gap = (powerW: number): number =>
    lapTime({ ...one, powerW }, path, work) - lapTime({ ...other, powerW }, path, work)
  let [low, high] = [LEAST_POWER * one.powerW, MOST_POWER * one.powerW]
  const [atLow, atHigh] = [gap(low), gap(high)]
  if (!Number.isFinite(atLow) || !Number.isFinite(atHigh) || Math.sign(atLow) === Math.sign(atHigh)) return null
  for (let step = 0; step < 40; step++) {
    const middle = Math.sqrt(low * high)
    if (Math.sign(gap(middle)) === Math.sign(atLow)) low = middle
    else high = middle
  }
  return Math.sqrt(low * high)
}

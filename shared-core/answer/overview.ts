/** How far the whole job is: what is there of each part, how good it is now, and what would make it better. */
import { carMass } from '@core/airflow'
import type { Analysis } from '@core/analysis'
import type { Shape, Verdict } from '@core/calibration'
import { loadMass, perAxleOf } from '@core/chassis'
import { AXLES, type Axle, type Exchange } from '@core/schema'
import {
  COVERAGE_FACTOR, intervalStatement, standardUncertainty, type BudgetRow, type Statement,
} from '@core/uncertainty'
import type { Answer } from './types'

/** How good a part is now: what it tells, and what most of its doubt comes from. */
export interface Accuracy {
  readonly said: Statement
  /** The largest part of the uncertainty; null where it is a bound, or exact. */
  readonly leader: BudgetRow | null
}

export interface Overview {
  readonly car: { readonly accuracy: Accuracy | null }
  readonly loads: {
    readonly count: number
    /** 95 % half-width of the least known load over its mass; null without any. */
    readonly worstHalf: number | null
  }
  readonly squat: { readonly tests: number; readonly steps: number; readonly readings: number }
  readonly curve: {
    readonly shapes: Readonly<Record<Axle, Shape | null>>
    /** Of the less well known axle, at the load wished for. */
    readonly weaker: { readonly axle: Axle; readonly goodEnough: boolean; readonly accuracy: Accuracy } | null
  }
  readonly airflow: { readonly runs: number; readonly controls: number; readonly setUps: number }
  readonly load: { readonly accuracy: Accuracy | null }
  readonly decide: { readonly setUps: number; readonly pairs: number; readonly apart: number }
  readonly track: { readonly laps: number; readonly setUps: number; readonly accuracy: Accuracy | null }
  readonly drag: { readonly coasts: number; readonly accuracy: Accuracy | null }
}

/** Counts only what the analysis could use. */
export function overviewOf({ chassis, sessions }: Exchange, analysis: Analysis, answer: Answer | null): Overview {
  const squats = sessions.flatMap((each) => (each.kind === 'squat' ? [each] : []))
  const runs = analysis.airflows.flatMap((each) => each.runs).filter(({ totalN, grossTotalN, control }) =>
    (control ? grossTotalN : totalN).statement.kind !== 'untold')
  const read = runs.filter(({ control }) => !control)
  const cells = analysis.matrix?.cells ?? []
  const laps = usedLaps(analysis)
  const mass = carMass(chassis)
  const drag = answer?.cost.dragN ?? null
  return {
    car: { accuracy: mass && accuracyOf(intervalStatement(mass)) },
    loads: loadsOf(chassis),
    squat: {
      tests: squats.length,
      steps: squats.reduce((count, { steps }) => count + steps.filter(({ setAside }) => !setAside).length, 0),
      readings: squats.reduce((count, { readings }) => count + readings.filter(({ setAside }) => !setAside).length, 0),
    },
    curve: curveOf(analysis),
    airflow: {
      runs: read.length, controls: runs.length - read.length,
      setUps: new Set(read.map(({ configurationId }) => configurationId)).size,
    },
    load: { accuracy: answer && !answer.untold ? accuracyOf(answer.at.totalN) : null },
    decide: {
      setUps: analysis.configurations.length, pairs: cells.length,
      apart: cells.filter(({ distinct }) => distinct).length,
    },
    track: { ...laps, accuracy: trackAccuracy(analysis) },
    drag: { coasts: coastsRead(analysis), accuracy: drag && drag.kind !== 'untold' ? accuracyOf(drag) : null },
  }
}

const accuracyOf = (said: Statement): Accuracy =>
  ({ said, leader: said.kind === 'interval' && said.u > 0 ? said.budget[0] ?? null : null })

function loadsOf(chassis: Exchange['chassis']): Overview['loads'] {
  const halves = chassis.loads.flatMap(({ id }) => {
    const mass = loadMass(chassis, id)
    return 'massKg' in mass && mass.massKg.value > 0
      ? [(COVERAGE_FACTOR * standardUncertainty(mass.massKg)) / mass.massKg.value] : []
  })
  return { count: halves.length, worstHalf: halves.length > 0 ? Math.max(...halves) : null }
}

/** Of the newest test that gives a curve. */
function curveOf({ squats }: Analysis): Overview['curve'] {
  const squat = squats.findLast(({ axles }) => AXLES.some((axle) => !axles[axle].refused))
  const shapes = perAxleOf((axle) => {
    const curve = squat?.axles[axle]
    return curve && !curve.refused ? curve.chosen : null
  })
  const verdicts = AXLES.flatMap((axle) => {
    const verdict = squat?.verdict[axle]
    return verdict ? [{ axle, verdict }] : []
  })
  const [worst] = verdicts.sort((a, b) => widthOf(b.verdict) - widthOf(a.verdict))
  if (!worst) return { shapes, weaker: null }
  const { axle, verdict: { goodEnough, statement } } = worst
  return { shapes, weaker: { axle, goodEnough, accuracy: accuracyOf(statement) } }
}

const widthOf = ({ statement }: Verdict): number =>
  (statement.kind === 'interval' ? statement.interval.high - statement.interval.low : Infinity)

/** Laps that a level was made of, and how many set-ups drove them. */
export function usedLaps({ tracks }: Pick<Analysis, 'tracks'>): { readonly laps: number; readonly setUps: number } {
  const runs = tracks.flatMap(({ groups }) => groups.flatMap((group) => group.runs))
    .map((run) => ({ id: run.configurationId, laps: run.repeats.filter(({ used }) => used).length }))
    .filter(({ laps }) => laps > 0)
  return { laps: runs.reduce((sum, { laps }) => sum + laps, 0), setUps: new Set(runs.map(({ id }) => id)).size }
}

/** Coasts of the sessions that tell a drag. */
export const coastsRead = ({ costs }: Pick<Analysis, 'costs'>): number =>
  costs.coasts.filter(({ untold }) => untold === null)
    .reduce((sum, { drags }) => sum + drags.reduce((count, { coastCount }) => count + coastCount, 0), 0)

/** The gain that is told best. */
function trackAccuracy({ tracks }: Analysis): Accuracy | null {
  const gains = tracks.flatMap(({ groups }) => groups)
    .flatMap(({ comparisons }) => comparisons.map(({ gain }) => gain.statement))
  const told = gains.flatMap((said) => (said.kind === 'interval' ? [said] : []))
  const [best] = told.sort((a, b) => a.u - b.u)
  return best ? accuracyOf(best) : null
}

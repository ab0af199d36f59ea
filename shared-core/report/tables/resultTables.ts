/** The results in SI units (drops in mm, ClA in m2). Bounds keep their words in a column of their own. */
import type { Analysis, CostOfPair, CostOfSetup } from '@core/analysis'
import type { CoastsRead, LineDrag, LineSetup } from '@core/drag'
import type { CornerBalance, GradientChange, TrackComparison, UndersteerGradient } from '@core/track'
import { AXLES, type Exchange } from '@core/schema'
import { intervalStatement, standardUncertainty } from '@core/uncertainty'
import {
  axlesOf, driven, GAIN, namesOf, PAIR, predicted, PREDICTION, RUN, SET_UP, TRACK_RUN, type Column, type Predicted,
} from '../columns'
import {
  COASTS, COST, COST_PAIR, LAP, LAP_PAIR, lapPairsOf, lapsOf, LINE, LINE_SETUP, type Lap, type LapPair,
} from '../costColumns'
import { CORNER, GRADIENT, GRADIENT_CHANGE, NEEDED, PAIRED } from '../trackColumns'
import { statementCells, statementHeads, tableOf } from './columnCells'
import type { CsvCell, CsvTable } from './csv'

/** Parameters of every fitted shape. */
export function curvesTable({ squats }: Analysis): CsvTable {
  const rows = squats.flatMap((squat) => AXLES.flatMap((axle) => {
    const curve = squat.axles[axle]
    return curve.candidates.flatMap((each): CsvCell[][] => (each.fitted
      ? [...each.parameters, { name: 'frictionN', estimate: each.frictionN }].map(({ name, estimate }) => [
        squat.name, axle, each.shape, !curve.refused && each.shape === curve.chosen ? 'yes' : 'no', each.weight,
        each.chiSquare, each.dof, name, estimate.value, standardUncertainty(estimate),
      ]) : []))
  }))
  return {
    fileName: 'curves.csv', rows,
    heads: ['session', 'axle', 'shape', 'chosen', 'weight', 'chi-square', 'dof', 'parameter (unit in name)', 'value', 'u'],
  }
}

/** Load of each run and axle, ClA of each set-up, loads at the chosen speeds, every pair, and what the track held. */
export function columnTables(exchange: Exchange, { airflows, configurations, matrix, tracks }: Analysis): CsvTable[] {
  const names = namesOf(exchange)
  const groups = tracks.flatMap((each) => each.groups)
  const { run, setUp, kind, control, axle, speed, pressure, density, drop, gross, net } = RUN
  const { name, claFront, claRear, cla, frontShare, centre, touches } = SET_UP
  const { first, second, front, rear, total, chance, pHolm, apart, detectable } = PAIR
  const { before, after, manoeuvre, driftRemoved, gain, expected, normalised, verdict } = GAIN
  const track = TRACK_RUN
  const trackLevels = [
    track.run, track.setUp, track.manoeuvre, track.order, track.repeats, track.scatter, track.level, track.speed,
  ]
  return [
    tableOf('runs.csv', [run, setUp, kind, control, axle, speed, pressure, density, drop, gross, net],
      axlesOf(airflows.flatMap(({ runs }) => runs)), names),
    tableOf('set-ups.csv', [name, claFront, claRear, cla, frontShare, centre, touches], configurations, names),
    tableOf('predictions.csv', Object.values<Column<Predicted>>(PREDICTION), predicted(configurations), names),
    tableOf('comparisons.csv', [first, second, front, rear, total, chance, pHolm, apart, detectable], matrix?.cells ?? [], names),
    tableOf('track-levels.csv', trackLevels, driven(groups), names),
    tableOf('track-gains.csv', [before, after, manoeuvre, driftRemoved, gain, expected, normalised, verdict],
      groups.flatMap(({ comparisons }) => comparisons), names),
  ]
}

/** What the track says beside its levels and gains. */
export function trackTables(exchange: Exchange, { tracks }: Analysis): CsvTable[] {
  const names = namesOf(exchange)
  const compared = tracks.flatMap(({ groups }) => groups.flatMap(({ comparisons }) => comparisons))
  return [
    tableOf('track-loads.csv', Object.values<Column<TrackComparison>>(NEEDED),
      compared.filter(({ agreement }) => agreement), names),
    tableOf('track-pairs.csv', Object.values<Column<TrackComparison>>(PAIRED),
      compared.filter(({ paired, covariates }) => paired ?? covariates), names),
    tableOf('gradients.csv', Object.values<Column<UndersteerGradient>>(GRADIENT),
      tracks.flatMap(({ gradients }) => gradients), names),
    tableOf('gradient-changes.csv', Object.values<Column<GradientChange>>(GRADIENT_CHANGE),
      tracks.flatMap(({ gradientChanges }) => gradientChanges), names),
    tableOf('corners.csv', Object.values<Column<CornerBalance>>(CORNER), tracks.flatMap(({ corners }) => corners), names),
  ]
}

/** Drag of each set-up and pair, of each line's run, and the laps of every course. */
export function costTables(exchange: Exchange, { costs }: Analysis): CsvTable[] {
  const names = namesOf(exchange)
  return [
    tableOf('coasts.csv', Object.values<Column<CoastsRead>>(COASTS), costs.coasts, names),
    tableOf('drag.csv', Object.values<Column<CostOfSetup>>(COST), costs.setups, names),
    tableOf('drag-differences.csv', Object.values<Column<CostOfPair>>(COST_PAIR), costs.pairs, names),
    tableOf('line-drag.csv', Object.values<Column<LineDrag>>(LINE), costs.lines, names),
    tableOf('line-set-ups.csv', Object.values<Column<LineSetup>>(LINE_SETUP), costs.lineSetups, names),
    tableOf('laps.csv', Object.values<Column<Lap>>(LAP), lapsOf(costs), names),
    tableOf('lap-differences.csv', Object.values<Column<LapPair>>(LAP_PAIR), lapPairsOf(costs), names),
  ]
}

/** The car at rest. */
export function staticTable({ staticFrontShare, gravityMs2, gravityFrom }: Analysis): CsvTable {
  return {
    fileName: 'constants.csv', heads: ['what', ...statementHeads('quantity', '/as named')],
    rows: [
      [`gravity (${gravityFrom}), m/s2`, ...statementCells(intervalStatement(gravityMs2))],
      ...(staticFrontShare ? [['front share standing', ...statementCells(intervalStatement(staticFrontShare))]] : []),
    ],
  }
}

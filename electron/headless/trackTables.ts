/** The tables of the track: what each run held, before against after, and whether the bench agrees. */
import {
  CORNER, driven, GAIN, GRADIENT, GRADIENT_CHANGE, namesOf, NEEDED, PAIRED, TRACK_RUN, type Column,
} from '@core/report'
import type { CornerBalance, GradientChange, TrackComparison, UndersteerGradient } from '@core/track'
import type { Results } from './results'
import { resultTable, table } from './textTable'
import { plainStatement, statementText } from './words'

export function trackTables({ exchange, analysis }: Results): string[] {
  const names = namesOf(exchange)
  const groups = analysis.tracks.flatMap((track) => track.groups)
  const compared = groups.flatMap((group) => group.comparisons)
  const { run, setUp, manoeuvre, radius, order, repeats, level } = TRACK_RUN
  const { before, after, gain, expected, verdict, difference, driftRemoved } = GAIN
  return [
    ...resultTable('Track: level held', [run, setUp, manoeuvre, radius, order, repeats, level], driven(groups), names),
    ...table('Track: does the level move with the order', ['driven', 'per run', 'verdict'], groups.map((group) => [
      group.manoeuvre, statementText(group.drift.perRun, 'percent'), group.drift.verdict,
    ])),
    ...resultTable('Track: after over before, less 1', [before, after, gain, expected, verdict], compared, names),
    ...resultTable('Track: after less before', [before, after, difference, driftRemoved], compared, names),
    ...resultTable('Track less bench',
      [before, after, GAIN.lessBench, GAIN.normalised, GAIN.expectedFront, GAIN.expectedRear],
      compared.filter(({ agreement }) => agreement), names),
    ...resultTable('Track: load that the gain needs', Object.values<Column<TrackComparison>>(NEEDED),
      compared.filter(({ agreement }) => agreement), names),
    ...resultTable('Track: pairs of neighbours', Object.values<Column<TrackComparison>>(PAIRED),
      compared.filter(({ paired, covariates }) => paired ?? covariates), names),
    ...resultTable('Track: understeer gradient', Object.values<Column<UndersteerGradient>>(GRADIENT),
      analysis.tracks.flatMap(({ gradients }) => gradients), names),
    ...resultTable('Track: understeer gradient after another set-up',
      Object.values<Column<GradientChange>>(GRADIENT_CHANGE),
      analysis.tracks.flatMap(({ gradientChanges }) => gradientChanges), names),
    ...resultTable('Track: in the chosen corner', Object.values<Column<CornerBalance>>(CORNER),
      analysis.tracks.flatMap(({ corners }) => corners), names),
    ...analysis.tracks.flatMap(({ groups: found, sensitivity: { sensitivity, from } }) =>
      (found.every(({ comparisons }) => comparisons.length === 0) ? []
        : [`Grip falls with load to the power of ${plainStatement(sensitivity)} (${from}).`])),
  ]
}

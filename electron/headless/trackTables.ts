/** The tables of the track: what each run held, before against after, and whether the bench agrees. */
import { driven, GAIN, namesOf, TRACK_RUN } from '@core/report'
import type { Results } from './results'
import { resultTable, table } from './textTable'
import { plainStatement, statementText } from './words'

export function trackTables({ exchange, analysis }: Results): string[] {
  const names = namesOf(exchange)
  const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id
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
    ...table('Track: load that the gain needs', ['before', 'after', 'speed', 'load needed', 'load by the bench', 'bench less needed'],
      compared.flatMap(({ beforeId, afterId, agreement }) => (agreement ? [[
        nameOf(beforeId), nameOf(afterId), `${agreement.atSpeedMs.toFixed(2)} m/s`,
        statementText(agreement.neededN.statement, 'newton'), statementText(agreement.expected.afterN.statement, 'newton'),
        statementText(agreement.loadDifferenceN, 'newton'),
      ]] : []))),
    ...table('Track: pairs of neighbours', ['before', 'after', 'pairs', 'gain', 'p of no difference'], compared.flatMap((each) =>
      (each.paired ? [[
        nameOf(each.beforeId), nameOf(each.afterId), String(each.paired.pairs.length),
        statementText(each.paired.gain, 'percent'), each.paired.pValue.toPrecision(3),
      ]] : []))),
    ...table('Track: understeer gradient, rad per m/s²', ['run', 'set-up', 'gradient', 'tends to'],
      analysis.tracks.flatMap(({ gradients }) => gradients.map((each) => [
        each.name, nameOf(each.configurationId), plainStatement(each.value), each.tendency,
      ]))),
    ...table('Track: in the chosen corner', ['set-up', 'speed', 'front carries', 'front over rear', 'tends to'],
      analysis.tracks.flatMap(({ corners }) => corners.map((each) => [
        nameOf(each.configurationId), `${each.speedMs} m/s`, statementText(each.carried.front, 'percent'),
        statementText(each.frontOverRear, 'percent'), each.tendency,
      ]))),
    ...analysis.tracks.flatMap(({ groups: found, sensitivity: { sensitivity, from } }) =>
      (found.every(({ comparisons }) => comparisons.length === 0) ? []
        : [`Grip falls with load to the power of ${plainStatement(sensitivity)} (${from}).`])),
  ]
}

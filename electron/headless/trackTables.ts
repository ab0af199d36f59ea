/** The tables of the track: what each run held, before against after, and whether the bench agrees. */
import { AXLES } from '@core/schema'
import type { Results } from './results'
import { table } from './textTable'
import { plainStatement, statementText } from './words'

export function trackTables({ exchange, analysis }: Results): string[] {
  const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id
  const groups = analysis.tracks.flatMap((track) => track.groups)
  const compared = groups.flatMap((group) => group.comparisons)
  const expected = compared.flatMap((each) => (each.agreement ? [{ ...each, agreement: each.agreement }] : []))
  return [
    ...table('Track: level held', ['run', 'set-up', 'driven', 'order', 'repeats', 'level'], groups.flatMap((group) => group.runs.map((run) => [
      run.name, nameOf(run.configurationId), group.radiusM === null ? run.manoeuvre : `${run.manoeuvre}, R ${group.radiusM} m`,
      String(run.order), String(run.repeats.length), statementText(run.statement, 'metrePerSecondSquared'),
    ]))),
    ...table('Track: does the level move with the order', ['driven', 'per run', 'verdict'], groups.map((group) => [
      group.manoeuvre, statementText(group.drift.perRun, 'percent'), group.drift.verdict,
    ])),
    ...table('Track: after over before, less 1', ['before', 'after', 'gain', 'expected by the bench', 'verdict'], compared.map((each) => [
      nameOf(each.beforeId), nameOf(each.afterId), statementText(each.gain.statement, 'percent'),
      each.agreement ? statementText(each.agreement.expected.total.statement, 'percent') : '-', each.agreement?.verdict ?? '-',
    ])),
    ...table('Track: after less before', ['before', 'after', 'difference', 'drift taken out'], compared.map((each) => [
      nameOf(each.beforeId), nameOf(each.afterId), statementText(each.differenceMs2, 'metrePerSecondSquared'), each.driftRemoved ? 'yes' : 'no',
    ])),
    ...table('Track less bench', ['before', 'after', 'gain less expected', 'over its 95 % half-width', 'if the front alone limits', 'if the rear alone limits'],
      expected.map(({ beforeId, afterId, agreement }) => [
        nameOf(beforeId), nameOf(afterId), statementText(agreement.difference, 'percent'),
        agreement.normalisedError === null ? '-' : agreement.normalisedError.toFixed(2),
        ...AXLES.map((axle) => statementText(agreement.expected.axles[axle].statement, 'percent')),
      ])),
    ...analysis.tracks.flatMap(({ groups: found, sensitivity: { sensitivity, from } }) =>
      (found.every(({ comparisons }) => comparisons.length === 0) ? []
        : [`Grip falls with load to the power of ${plainStatement(sensitivity)} (${from}).`])),
  ]
}

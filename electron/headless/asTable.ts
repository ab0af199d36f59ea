/** The results as plain text tables in SI units. */
import type { Analysis, SquatResult } from '@core/analysis'
import { AXLES, type Exchange } from '@core/schema'
import { intervalStatement, standardUncertainty } from '@core/uncertainty'
import { formatQuantity } from '@core/units'
import { statementText } from './words'

type Row = readonly string[]

/** Columns as wide as their widest cell. */
function table(title: string, head: Row, rows: readonly Row[]): string[] {
  if (rows.length === 0) return []
  const widths = head.map((_, column) => Math.max(...[head, ...rows].map((row) => [...(row[column] ?? '')].length)))
  const line = (row: Row): string => row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ').trimEnd()
  return [title, line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line), '']
}

const withU = (value: number, u: number): string => `${value.toPrecision(5)} ± ${u.toPrecision(2)}`

function curveRows(squat: SquatResult): Row[] {
  return AXLES.flatMap((axle): Row[] => {
    const curve = squat.axles[axle]
    if (curve.refused) return [[squat.name, axle, 'no curve', '', curve.why]]
    return curve.candidates.flatMap((each): Row[] => {
      if (!each.fitted || each.weight < 0.01) return []
      const parameters = each.parameters.map(({ name, estimate }) => `${name} ${withU(estimate.value, standardUncertainty(estimate))}`)
      const friction = each.frictionFrom === 'none' ? [] : [`frictionN ${withU(each.frictionN.value, standardUncertainty(each.frictionN))}`]
      const chosen = each.shape === curve.chosen ? ' *' : ''
      return [[squat.name, axle, each.shape + chosen, `${Math.round(each.weight * 100)} %`, [...parameters, ...friction].join(', ')]]
    })
  })
}

/** All results as text; a row for each axle curve, run, configuration, pair and track comparison. */
export function asTable(exchange: Exchange, analysis: Analysis): string {
  const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id
  const runs = analysis.airflows.flatMap((session) => session.runs)
  const unread = analysis.airflows.flatMap((session) => session.unread)
  const tracks = analysis.tracks.flatMap((track) => track.groups.flatMap((group) => group.comparisons))
  return [
    `${exchange.chassis.name}   (intervals: 95 % coverage; bounds: 95 %, one-sided; gravity: ${analysis.gravityFrom})`, '',
    ...table('Axle curves (* chosen)', ['squat test', 'axle', 'shape', 'support', 'parameters'], analysis.squats.flatMap(curveRows)),
    ...table('Load of each run, control taken off', ['run', 'set-up', 'air speed', 'front', 'rear', 'whole car'], runs.map((run) => [
      run.control ? `${run.name} (control)` : run.name, nameOf(run.configurationId),
      run.flow ? formatQuantity(run.flow.speedMs.value, 'metrePerSecond', { u: standardUncertainty(run.flow.speedMs) }).text : 'not told',
      ...AXLES.map((axle) => statementText((run.control ? run.axles[axle].grossN : run.axles[axle].netN).statement, 'newton')),
      statementText((run.control ? run.grossTotalN : run.totalN).statement, 'newton'),
    ])),
    ...table('Runs that could not be read', ['run', 'why'], unread.map((run) => [run.name, run.remarks.map(({ code }) => code).join(', ')])),
    ...table('Set-ups: ClA', ['set-up', 'front', 'rear', 'whole car', 'front share'], analysis.configurations.map(({ name, aero }) => [
      name, ...AXLES.map((axle) => statementText(aero.axles[axle].claM2.statement, 'squareCentimetre')),
      statementText(aero.total.claM2.statement, 'squareCentimetre'), statementText(aero.balance.frontShare, 'percent'),
    ])),
    ...table('At speed', ['set-up', 'speed', 'front', 'rear', 'whole car', 'share of weight'], analysis.configurations.flatMap(({ name, predictions }) =>
      predictions.map((each): Row => [
        name, `${each.speedMs} m/s`, ...AXLES.map((axle) => statementText(each.forceN[axle], 'newton')),
        statementText(each.totalN, 'newton'), statementText(each.weightShare, 'percent'),
      ]))),
    ...table('Touches the ground at', ['set-up', 'front', 'rear', 'first'], analysis.configurations.map(({ name, touchDowns }) => [
      name, ...AXLES.map((axle) => {
        const each = touchDowns.axles[axle]
        return each.kind === 'touches' ? statementText(each.speedMs, 'metrePerSecond') : each.kind
      }), statementText(touchDowns.firstMs, 'metrePerSecond'),
    ])),
    ...table('Comparisons: ClA of the whole car, first less second', ['first', 'second', 'difference', 'p (Holm)', 'told apart'],
      (analysis.matrix?.cells ?? []).map(({ comparison, holmP, distinct }) => [
        nameOf(comparison.configurationA), nameOf(comparison.configurationB),
        statementText(comparison.total.differenceM2.statement, 'squareCentimetre'), holmP === null ? '-' : holmP.toPrecision(2), distinct ? 'yes' : 'no',
      ])),
    ...table('Track: after over before, less 1', ['before', 'after', 'gain', 'expected by the bench', 'verdict'], tracks.map((each) => [
      nameOf(each.beforeId), nameOf(each.afterId), statementText(each.gain.statement, 'percent'),
      each.agreement ? statementText(each.agreement.expected.total.statement, 'percent') : '-', each.agreement?.verdict ?? '-',
    ])),
    ...(analysis.staticFrontShare ? [`Front share standing: ${statementText(intervalStatement(analysis.staticFrontShare), 'percent')}`] : []),
    ...analysis.troubles.map(({ name, why }) => `${name}: could not be worked out (${why})`),
  ].join('\n').trimEnd()
}

/** The results as plain text tables in SI units. */
import type { SquatResult, Trouble } from '@core/analysis'
import { ENGLISH } from '@core/report/words'
import type { Remark } from '@core/remark'
import { AXLES } from '@core/schema'
import { intervalStatement, standardUncertainty } from '@core/uncertainty'
import { formatQuantity } from '@core/units'
import { answerText } from './answerText'
import { comparisonTables, heightTables, setUpTables } from './aeroTables'
import { costTables } from './costTables'
import type { Results } from './results'
import { table, type Texts } from './textTable'
import { trackTables } from './trackTables'
import { remarkText, statementText, withU } from './words'

function curveRows(squat: SquatResult): Texts[] {
  return AXLES.flatMap((axle): Texts[] => {
    const curve = squat.axles[axle]
    if (curve.refused) return [[squat.name, axle, 'no curve', '', ENGLISH.sentences[`refused_${curve.code}`]]]
    return curve.candidates.flatMap((each): Texts[] => {
      if (!each.fitted || each.weight < 0.01) return []
      const parameters = each.parameters.map(({ name, estimate }) => `${name} ${withU(estimate.value, standardUncertainty(estimate))}`)
      const friction = each.frictionFrom === 'none' ? [] : [`frictionN ${withU(each.frictionN.value, standardUncertainty(each.frictionN))}`]
      const chosen = each.shape === curve.chosen ? ' *' : ''
      return [[squat.name, axle, each.shape + chosen, `${Math.round(each.weight * 100)} %`, [...parameters, ...friction].join(', ')]]
    })
  })
}

/** What is left out of a squat test or doubted in it: of the readings, then of each curve. */
function doubtRows({ name, remarks, axles }: SquatResult): Texts[] {
  const rows = (axle: string, list: readonly Remark[]): Texts[] =>
    list.filter(({ severity }) => severity !== 'note').map((each) => [name, axle, remarkText(each)])
  return [...rows('', remarks), ...AXLES.flatMap((axle) => rows(axle, axles[axle].remarks))]
}

/** All results as text. */
export function asTable(results: Results): string {
  const { exchange, analysis } = results
  const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id
  const runs = analysis.airflows.flatMap((session) => session.runs)
  const unread = analysis.airflows.flatMap((session) => session.unread)
  return [
    `${exchange.chassis.name}   (intervals: 95 % coverage; bounds: 95 %, one-sided; gravity: ${analysis.gravityFrom})`, '',
    ...answerText(results),
    ...table('Axle curves (* chosen)', ['squat test', 'axle', 'shape', 'support', 'parameters'], analysis.squats.flatMap(curveRows)),
    ...table('What the squat tests leave out or doubt', ['squat test', 'axle', 'what'], analysis.squats.flatMap(doubtRows)),
    ...table('Load of each run, control taken off', ['run', 'set-up', 'air speed', 'front', 'rear', 'whole car'], runs.map((run) => [
      run.control ? `${run.name} (control)` : run.name, nameOf(run.configurationId),
      run.flow ? formatQuantity(run.flow.speedMs.value, 'metrePerSecond', { u: standardUncertainty(run.flow.speedMs) }).text : 'not told',
      ...AXLES.map((axle) => statementText((run.control ? run.axles[axle].grossN : run.axles[axle].netN).statement, 'newton')),
      statementText((run.control ? run.grossTotalN : run.totalN).statement, 'newton'),
    ])),
    ...table('Air of each run', ['run', 'points or passes', 'unevenness of V²', 'density, kg/m³'], runs.map((run) => [
      run.name, String(run.flow?.pointCount ?? 0),
      run.flow === null || run.flow.unevenness === null ? '-' : `${Math.round(run.flow.unevenness * 100)} %`,
      withU(run.air.densityKgM3.value, standardUncertainty(run.air.densityKgM3)),
    ])),
    ...table('Runs that could not be read', ['run', 'why'], unread.map((run) => [
      run.name, run.remarks.map(remarkText).join(' '),
    ])),
    ...setUpTables(results), ...heightTables(results), ...comparisonTables(results), ...trackTables(results),
    ...costTables(results),
    ...(analysis.staticFrontShare ? [`Front share standing: ${statementText(intervalStatement(analysis.staticFrontShare), 'percent')}`] : []),
    ...analysis.troubles.map(troubleText),
  ].join('\n').trimEnd()
}

function troubleText(trouble: Trouble): string {
  switch (trouble.part) {
    case 'curve': return `${trouble.name}: ${remarkText(trouble.remark)}`
    case 'setUps': return 'The set-ups could not be worked out: a fault of this program, not of the readings.'
    case 'session': return `${trouble.name} could not be worked out: a fault of this program, not of the readings.`
  }
}

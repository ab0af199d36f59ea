/** The tables of what downforce costs: drag by coasts, load per drag, laps of the builder's courses. */
import type { CourseWanting, RankQuestion } from '@core/analysis'
import { ASSUMED_ROLLING, type CoastsRead, type CoastsUntold, type LineUntold } from '@core/drag'
import {
  COASTS, COST, COST_PAIR, LAP, LAP_PAIR, lapPairsOf, lapsOf, LINE, LINE_SETUP, namesOf, rankColumns, type Names,
} from '@core/report'
import { ENGLISH, sayIn } from '@core/report/words'
import { intervalStatement, type Uncertain } from '@core/uncertainty'
import type { Quantity, Unit } from '@core/units'
import type { Results } from './results'
import { resultTable } from './textTable'
import { statementText } from './words'

const WANTING: Readonly<Record<CourseWanting, string>> = {
  segments: 'its straights and corners', drag: 'coasts that tell a drag', load: 'a load by the bench for a set-up that coasted',
  grip: 'laps of a circle, or the level that the tyres hold', power: 'the power at the wheels, or a run at full throttle',
}

const NO_DRAG: Readonly<Record<CoastsUntold, string>> = {
  noMass: 'the car’s mass is not given', noCoasts: 'no coast with three readings in order',
  tooFewReadings: 'a coast has fewer than three readings', notSlowing: 'the car does not slow down in these runs',
  cantBeParted: 'rolling and air can’t be parted: begin faster or roll on longer',
  noAgreement: 'no one drag fits these coasts: look for a run entered the wrong way round',
}

const NO_LINE: Readonly<Record<LineUntold, string>> = {
  noMass: 'the car’s mass is not given', noSpeed: 'the air’s speed is not given', trayDown: 'the tray was on the ground and held the car, too',
}

const told = (of: Uncertain | null, unit: Unit): string => (of ? statementText(intervalStatement(of), unit) : 'not known')

const RANK_TITLE: Readonly<Record<RankQuestion['by'], string>> = {
  loadPerDrag: 'Set-ups, most load per drag first', corner: 'Set-ups, highest level in the corner first',
  lap: 'Set-ups, quickest lap first',
}
const RANK_QUANTITY: Readonly<Record<RankQuestion['by'], Quantity>> =
  { loadPerDrag: 'number', corner: 'acceleration', lap: 'time' }

export function costTables({ exchange, analysis: { costs }, ranking }: Results): string[] {
  if (costs.coasts.length === 0 && costs.courses.length === 0 && costs.lines.length === 0) return []
  const names = namesOf(exchange)
  return [
    ...resultTable('Coasts', [COASTS.name, COASTS.count, COASTS.rolling, COASTS.wind, COASTS.gusts], costs.coasts, names),
    ...costs.coasts.flatMap(coastNotes),
    ...(costs.dragFrom === 'line' ? [ENGLISH.sentences.dragByLine, ''] : []),
    ...resultTable('What downforce costs', [COST.setUp, COST.cda, COST.loadPerDrag], costs.setups, names),
    ...resultTable('Drag, one set-up less another', Object.values(COST_PAIR), costs.pairs, names),
    ...resultTable('Drag on the bench, by the line’s pull', Object.values(LINE_SETUP), costs.lineSetups, names),
    ...resultTable('Each pull, and what the line put on the axles', [
      LINE.run, LINE.setUp, LINE.control, LINE.drag, LINE.cda, LINE.device, LINE.pitchFront, LINE.pitchRear,
    ], costs.lines, names),
    ...costs.lines.flatMap(({ name, untold }) => (untold ? [`${name}: ${NO_LINE[untold]}`, ''] : [])),
    ...(costs.lines.some(({ rollingFrom }) => rollingFrom === 'assumed')
      ? [`No coast tells how the wheels roll: up to ${100 * ASSUMED_ROLLING} % of the load is assumed to hold the car, too.`, '']
      : []),
    ...costs.courses.flatMap(({ name, wanting }) =>
      (wanting.length > 0 ? [`${name}: no laps yet; needs ${wanting.map((each) => WANTING[each]).join('; ')}`, ''] : [])),
    ...resultTable('Laps', Object.values(LAP), lapsOf(costs), names),
    ...resultTable('Laps, one set-up less another', Object.values(LAP_PAIR), lapPairsOf(costs), names),
    ...(ranking ? rankTable(ranking, names) : []),
    `Grip without air load: ${told(costs.gripMs2, 'metrePerSecondSquared')}. Power at the wheels: ${told(costs.powerW, 'watt')}.`,
  ]
}

function coastNotes({ name, untold, wouldPart }: CoastsRead): string[] {
  if (!untold && !wouldPart) return []
  const speed = (ms: number): string => `${ms.toFixed(1)} m/s`
  return [
    ...(untold ? [`${name}: ${NO_DRAG[untold]}`] : []),
    ...(wouldPart ? [sayIn(ENGLISH)('wouldPart', { start: speed(wouldPart.startMs), end: speed(wouldPart.endMs) })] : []),
    '',
  ]
}

function rankTable({ question, list }: NonNullable<Results['ranking']>, names: Names): string[] {
  if (list.length === 0) return [`${RANK_TITLE[question.by]}: can't be told yet`, '']
  return resultTable(RANK_TITLE[question.by], rankColumns(RANK_QUANTITY[question.by]), list, names)
}

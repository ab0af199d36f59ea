/** The tables of what downforce costs: drag by coasts, load per drag, laps of the builder's courses. */
import type { CourseWanting } from '@core/analysis'
import { ASSUMED_ROLLING, type CoastsUntold, type LineUntold } from '@core/drag'
import { intervalStatement, type Statement, type Uncertain } from '@core/uncertainty'
import type { Unit } from '@core/units'
import type { Results } from './results'
import { table } from './textTable'
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
const maybe = (of: Statement | null, unit: Unit): string => (of ? statementText(of, unit) : '-')

export function costTables({ exchange, analysis: { costs } }: Results): string[] {
  if (costs.coasts.length === 0 && costs.courses.length === 0 && costs.lines.length === 0) return []
  const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id
  const [area, ratio] = ['squareCentimetre', 'plain'] as const
  return [
    ...table('Coasts', ['session', 'coasts', 'rolling, share of the weight', 'wind, + with the way out', 'gusts'],
      costs.coasts.map((read) => [
      read.name, String(read.fit?.coasts.length ?? 0), ...(read.rollingShare && read.windMs && read.fit
        ? [
            statementText(read.rollingShare.statement, 'percent'), statementText(read.windMs.statement, 'metrePerSecond'),
            `${read.fit.gustMs.toFixed(2)} m/s`]
        : [read.untold ? NO_DRAG[read.untold] : '-', '-', '-']),
      ])),
    ...table('What downforce costs', ['set-up', 'CdA', 'load per drag'], costs.setups.map((each) =>
      [nameOf(each.configurationId), statementText(each.cdaM2.statement, area), maybe(each.loadPerDrag, ratio)])),
    ...table('Drag, one set-up less another', ['set-up', 'less', 'CdA', 'load gained per drag'], costs.pairs.map((each) => [
      nameOf(each.configurationA), nameOf(each.configurationB), statementText(each.cdaM2.statement, area),
      maybe(each.loadPerDrag, ratio),
    ])),
    ...table('Drag on the bench, by the line’s pull', ['run', 'set-up', 'drag', 'CdA', 'CdA less control'],
      costs.lines.map((each) => [
        each.name, `${nameOf(each.configurationId)}${each.control ? ' (control)' : ''}`,
        maybe(each.dragN?.statement ?? null, 'newton'),
        each.untold ? NO_LINE[each.untold] : maybe(each.cdaM2?.statement ?? null, area),
        maybe(each.deviceM2?.statement ?? null, area),
      ])),
    ...(costs.lines.some(({ rollingFrom }) => rollingFrom === 'assumed')
      ? [`No coast tells how the wheels roll: up to ${100 * ASSUMED_ROLLING} % of the load is assumed to hold the car, too.`, '']
      : []),
    ...costs.courses.flatMap(({ name, wanting, result }) => [
      ...(wanting.length > 0 ? [`${name}: no laps yet; needs ${wanting.map((each) => WANTING[each]).join('; ')}`, ''] : []),
      ...(result ? [
        ...table(`${name}, ${result.lengthM.toFixed(1)} m`, ['set-up', 'lap', 'top speed', 'launch', 'speeds of the lap'],
          result.outcomes.map((each) => [
            nameOf(each.configurationId), statementText(each.lapS, 'second'), statementText(each.topSpeedMs, 'metrePerSecond'),
            statementText(each.launchS, 'second'), `${each.leastMs.toFixed(1)} to ${each.mostMs.toFixed(1)} m/s`,
          ])),
        ...table(`${name}: one set-up less another`, ['set-up', 'less', 'lap', 'top speed', 'as quick at'], result.differences.map((each) => [
          nameOf(each.configurationA), nameOf(each.configurationB), statementText(each.lapS, 'second'),
          statementText(each.topSpeedMs, 'metrePerSecond'), each.breakEvenW === null ? 'no power' : `${each.breakEvenW.toFixed(0)} W`,
        ])),
      ] : []),
    ]),
    `Grip without air load: ${told(costs.gripMs2, 'metrePerSecondSquared')}. Power at the wheels: ${told(costs.powerW, 'watt')}.`,
  ]
}

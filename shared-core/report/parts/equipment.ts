/** The car, its instruments and its loads, as entered. */
import { loadMass, scaleGain } from '@core/chassis'
import { AXLES, CORNERS } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { list, table } from './table'

export function equipment(paper: Paper): Markup {
  const { say } = paper
  return html`<section><h2>${say('car')}</h2>${car(paper)}<h3>${say('instruments')}</h3>${instruments(paper)}<h3>${say('weights')}</h3>${loads(paper)}</section>`
}

const known = (paper: Paper, each: { value: number; u: number } | null, quantity: 'length' | 'mass'): string =>
  (each ? `${paper.show(each.value, quantity, { u: each.u || each.value / 1000 })} (u ${paper.show(each.u, quantity, { u: each.u || 0.1 })})` : '–')

function car(paper: Paper): Markup {
  const { say } = paper
  const { chassis } = paper.exchange
  const corners = chassis.cornerMassesKg
  return list([
    `${say('wheelbase')}: ${known(paper, chassis.wheelbaseMm, 'length')}`,
    `${say('trackWidth')}: ${AXLES.map((axle) => `${say(axle)} ${paper.show(chassis.trackMm[axle], 'length', { u: 0.5 })}`).join(', ')}`,
    `${say('carMass')}: ${known(paper, chassis.massKg, 'mass')}`,
    ...(corners ? [`${say('cornerMasses')}: ${CORNERS.map((corner) => `${say(corner)} ${paper.show(corners[corner], 'mass', { u: 0.001 })}`).join(', ')}`] : []),
    `${say('cgHeight')}: ${known(paper, chassis.cgHeightMm, 'length')}`,
    `${say('trayTouch')}: ${AXLES.map((axle) => `${say(axle)} ${known(paper, chassis.trayTouchMm[axle], 'length')}`).join(', ')}`,
  ])
}

function instruments(paper: Paper): Markup {
  const { say } = paper
  const { scales, gauges, anemometers } = paper.exchange.chassis
  const share = (u: number) => paper.show(u, 'share', { u: u || 0.01 })
  return table([say('instrument'), say('resolution'), say('shared'), say('zeroError'), say('repeatability')], [
    ...scales.map((each) => [each.name, paper.show(each.resolutionKg, 'mass', { u: each.resolutionKg }), share(each.gainU), '–', '–']),
    ...gauges.map((each) => [
      each.name, paper.show(each.resolutionMm, 'length', { u: each.resolutionMm / 5 }), share(each.scaleU),
      paper.show(each.zeroUMm, 'length', { u: each.zeroUMm || 0.1 }),
      each.repeatabilityUMm === null ? '–' : paper.show(each.repeatabilityUMm, 'length', { u: each.repeatabilityUMm || 0.1 }),
    ]),
    ...anemometers.map((each) => [
      each.name, paper.show(each.resolutionMs, 'speed', { u: each.resolutionMs / 5 }), share(each.factor.u), '–', '–',
    ]),
  ])
}

function loads(paper: Paper): Markup {
  const { say } = paper
  const { chassis } = paper.exchange
  const rows = chassis.loads.map((load) => {
    const result = loadMass(chassis, load.id)
    const used = load.weighings.filter((each) => each.setAside === null)
    return [load.name, 'trouble' in result ? '–' : paper.showUncertain(result.massKg, 'mass'), String(used.length)]
  })
  const checks = chassis.scales.map((scale) => {
    const { gain, from } = scaleGain(scale)
    return say(from === 'assumed' ? 'scaleNoCheck' : 'scaleCheck', { name: scale.name, gain: paper.showUncertain(gain, 'number') })
  })
  return html`${list(checks)}${table([say('loads'), say('mass'), say('weighings')], rows, { numbers: [1, 2] })}`
}

/** The car that carries its load: lengths to scale, bounds open, the tray where it is, words in their room. */
import { describe, expect, it } from 'vitest'
import { atSpeed } from '@core/analysis'
import { carAtSpeed, carWithBags, fromAbove, fromSide, largestLoad, stretchOf, type Shape } from '@core/drawing'
import { carSentence, carTexts, ENGLISH, GERMAN, voiceOf } from '@core/report'
import { exact } from '@core/uncertainty'
import { DEFAULT_UNITS } from '@core/units'
import { analysed, demoExchange } from '../report/demo'

const exchange = demoExchange()
const analysis = analysed(exchange)
const { chassis } = exchange
const best = analysis.configurations.find(({ name }) => name === 'Wing and skirts')!
const carAt = (speedMs: number) => carAtSpeed(chassis, atSpeed(analysis, best, chassis, speedMs), best.aero.balance)
const voices = [ENGLISH, GERMAN].map((language) => voiceOf({ exchange, language, units: DEFAULT_UNITS }))
const [voice] = voices
const pathOf = (shapes: readonly Shape[], look: string): string[] =>
  shapes.flatMap((each) => (each.kind === 'path' && each.look === look ? [each.d] : []))
/** Highest and lowest ordinate of a path of absolute moves and lines. */
const spanOf = (d: string): number => {
  const ys = [...d.matchAll(/(?:[ML][\d.-]+ |V)([\d.-]+)/g)].map((match) => Number(match[1]))
  return Math.max(...ys) - Math.min(...ys)
}

describe('from the side', () => {
  it('draws the load of each axle to one scale', () => {
    const car = carAt(18)
    const shapes = fromSide(car, carTexts(car, voice!), 20).shapes
    const lengths = (['front', 'rear'] as const).map((axle) => spanOf(pathOf(shapes, axle)[0]!))
    const loads = (['front', 'rear'] as const).map((axle) => (car.axles[axle].loadN as { value: number }).value)
    expect(lengths[1]! / lengths[0]!).toBeCloseTo(loads[1]! / loads[0]!, 2)
  })

  it('stretches the room under the tray by what it says, and draws it no higher than its place', () => {
    const car = carAt(10)
    const shapes = fromSide(car, carTexts(car, voice!), 20).shapes
    const [front] = pathOf(shapes, 'room')
    const drawn = 268 - Number(/V([\d.]+)/.exec(front!)![1])
    const perMm = 250 / chassis.wheelbaseMm.value
    expect(drawn / perMm / stretchOf(car)).toBeCloseTo((car.axles.front.clearanceMm as { value: number }).value, 1)
    expect(stretchOf(car)).toBe(10)
    expect(stretchOf({ ...car, roomMm: { front: 40, rear: 38 } })).toBe(1)
  })

  it('past touch-down shows an open arrow, no bar of an interval on it, and the tray down by more than a colour', () => {
    const car = carAt(26)
    const { shapes } = fromSide(car, carTexts(car, voice!), 20)
    expect(pathOf(shapes, 'rear')).toEqual([])
    expect(pathOf(shapes, 'open').length).toBeGreaterThan(0)
    expect(pathOf(shapes, 'trayDown')).toHaveLength(1)
    expect(shapes.flatMap((each) => (each.kind === 'text' && each.look === 'down' ? [each.text] : [])))
      .toEqual(['tray on the ground'])
    expect(pathOf(fromAbove(car, 20).shapes, 'trayDown')).toHaveLength(1)
  })

  it('keeps every word inside the drawing, in both languages and at any speed', () => {
    for (const said of voices) {
      for (const speedMs of [1, 12, 19.3, 22.5, 40]) {
        const car = carAt(speedMs)
        const { shapes, width } = fromSide(car, carTexts(car, said), 20)
        for (const each of shapes) {
          if (each.kind !== 'text') continue
          const long = [...each.text].length * each.size * 0.56
          expect(each.anchor === 'end' ? each.x - long : width - each.x - long).toBeGreaterThanOrEqual(0)
          expect(each.size).toBeGreaterThan(10)
        }
        expect(JSON.stringify(shapes)).not.toMatch(/NaN|Infinity|undefined/)
        expect(carSentence(car, said)).toMatch(/: .+, .+; .+: .+, .+/)
      }
    }
  })
})

describe('from above', () => {
  it('draws loads as discs by their area', () => {
    const car = carAt(18)
    const radii = pathOf(fromAbove(car, 20).shapes, 'hub').map((d) => Number(/a([\d.]+)/.exec(d)![1]))
    const loads = (['front', 'rear'] as const).map((axle) => (car.axles[axle].loadN as { value: number }).value)
    expect((radii[1]! / radii[0]!) ** 2).toBeCloseTo(loads[1]! / loads[0]!, 1)
  })
})

describe('with bags', () => {
  const squat = exchange.sessions.find((each) => each.kind === 'squat')!
  const step = squat.kind === 'squat' ? squat.steps.find(({ placed }) => placed.length > 0)! : null
  const drops = { frontLeft: exact(1), frontRight: exact(1), rearLeft: exact(0.5), rearRight: exact(0.5) }

  it('shares their weight by the lever of where they lie, and lowers the tray by what was read', () => {
    const placed = step!.placed.map((each, i) => ({ ...each, xMm: 60 + 20 * i }))
    const car = carWithBags(chassis, placed.slice(0, 1), drops, { front: false, rear: false })
    const value = (said: unknown): number => (said as { value: number }).value
    const total = value(car.axles.front.loadN) + value(car.axles.rear.loadN)
    expect(value(car.axles.rear.loadN) / total).toBeCloseTo(60 / chassis.wheelbaseMm.value, 6)
    // The demo's stations stand on the axle lines.
    expect(value(car.axles.front.clearanceMm)).toBeCloseTo(chassis.trayTouchMm.front!.value - 1, 6)
    const both = carWithBags(chassis, placed, drops, { front: false, rear: false })
    const bare = fromSide(both, null, largestLoad([both.axles.front.loadN]))
    expect(pathOf(bare.shapes, 'bag')).toHaveLength(placed.length)
    expect(bare.width).toBeLessThan(fromSide(both, carTexts(both, voice!), 1).width)
  })

  it('without a tray height says so and draws it dashed', () => {
    const untold = { ...chassis, trayTouchMm: { front: null, rear: null } }
    const car = carWithBags(untold, [], {}, { front: false, rear: false })
    const { shapes } = fromSide(car, carTexts(car, voice!), 1)
    expect(pathOf(shapes, 'trayUnknown')).toHaveLength(1)
    expect(carSentence(car, voice!)).toContain('room not known')
  })
})

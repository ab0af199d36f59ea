/**
 * The same car from above, its nose to the left: each axle's load as an arrow seen from behind (a crossed disc whose
 * area is the load), where the load acts and where the weight does, which half of the tray is down.
 */
import { AXLES, type Axle } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { circle, drawnOf, isDown } from './fromSide'
import { alongX, AXLE_X, NOSE, perMm, TAIL, tidy, WIDTH } from './place'
import type { Drawing, LoadedCar, Shape } from './types'

const LARGEST_DISC = 34
const MARGIN = 26

/** @param longestN what the largest disc stands for, N */
export function fromAbove(car: LoadedCar, longestN: number): Drawing {
  const halves = { front: (car.trackMm.front * perMm(car)) / 2, rear: (car.trackMm.rear * perMm(car)) / 2 }
  const wide = Math.max(halves.front, halves.rear)
  const height = tidy(2 * wide + 2 * MARGIN)
  const middle = height / 2
  return {
    x: 0, width: WIDTH, height, shapes: [
      { kind: 'path', look: 'axis', d: `M${AXLE_X.front - NOSE - 30} ${middle}H${AXLE_X.rear + TAIL + 30}` },
      body(halves, middle), ...AXLES.flatMap((axle) => down(car, axle, halves[axle], middle)),
      ...AXLES.map((axle) => wheels(axle, halves[axle], middle)), ...bags(car, middle),
      ...AXLES.flatMap((axle) => disc(car.axles[axle].loadN, axle, middle, longestN)),
      ...centres(car, middle),
    ],
  }
}

function body(half: Readonly<Record<Axle, number>>, y: number): Shape {
  const [nose, tail] = [AXLE_X.front - NOSE, AXLE_X.rear + TAIL]
  const [f, r] = [half.front * 0.62, half.rear * 0.7]
  const at = (side: -1 | 1): string =>
    `${nose + 10} ${tidy(y + side * f)}L${AXLE_X.front + 46} ${tidy(y + side * f)}L${AXLE_X.front + 84} ${tidy(y + side * r)}L${tail} ${tidy(y + side * r)}`
  const [upper, lower] = [at(-1), at(1).split('L').reverse().join('L')]
  const wing = `M${tail - 4} ${tidy(y - half.rear * 0.9)}h12v${tidy(half.rear * 1.8)}h-12Z`
  return { kind: 'path', look: 'shell', d: `M${nose} ${y}L${upper}L${lower}Z${wing}` }
}

const wheels = (axle: Axle, half: number, y: number): Shape => ({
  kind: 'path', look: 'shaft', also: axle,
  d: `M${AXLE_X[axle]} ${tidy(y - half)}V${tidy(y + half)}${[-1, 1].map((side) =>
    `M${AXLE_X[axle] - 30} ${tidy(y + side * half - 11)}h60v22h-60Z`).join('')}`,
})

/** Half of the tray that is on the ground: a field of strokes. */
function down(car: LoadedCar, axle: Axle, half: number, y: number): Shape[] {
  if (!isDown(car, axle)) return []
  const middle = (AXLE_X.front + AXLE_X.rear) / 2
  const [from, to] = axle === 'front' ? [AXLE_X.front - NOSE + 12, middle] : [middle, AXLE_X.rear + TAIL - 8]
  const high = half * 0.55
  const strokes = Array.from({ length: Math.floor((to - from) / 9) }, (_, i) => `M${from + 9 * i} ${tidy(y + high)}l9 ${tidy(-2 * high)}`)
  return [{ kind: 'path', look: 'trayDown', d: strokes.join('') }]
}

/** Radius by the load, so that the area is to scale. */
const radius = (loadN: number, longestN: number): number => LARGEST_DISC * Math.sqrt(Math.max(0, loadN) / longestN)

function disc(said: Statement, axle: Axle, y: number, longestN: number): Shape[] {
  const drawn = drawnOf(said)
  if (drawn === null) return []
  const x = AXLE_X[axle]
  const r = radius(Math.abs(drawn), longestN)
  const arm = tidy(r * Math.SQRT1_2)
  // An arrow that goes away shows its feathers, one that comes its point.
  const cross = drawn >= 0
    ? `M${tidy(x - arm)} ${tidy(y - arm)}L${tidy(x + arm)} ${tidy(y + arm)}M${tidy(x - arm)} ${tidy(y + arm)}L${tidy(x + arm)} ${tidy(y - arm)}`
    : circle(x, y, 3)
  const rings = said.kind === 'interval'
    ? [said.interval.low, said.interval.high].map((end) => circle(x, y, radius(Math.abs(end), longestN))).join('') : ''
  return [
    { kind: 'path', look: said.kind === 'interval' ? 'hub' : 'open', also: axle, d: `${circle(x, y, r)}${cross}` },
    ...(rings === '' ? [] : [{ kind: 'path', look: 'whisker', d: rings } as const]),
  ]
}

/** A diamond where the load acts, with its interval along the car, and a ring where the weight does. */
function centres(car: LoadedCar, y: number): Shape[] {
  const weight: Shape[] = car.weightAtMm === null ? []
    : [{ kind: 'path', look: 'weight', d: circle(alongX(car, car.weightAtMm), y, 9) }]
  if (car.centreMm?.kind !== 'interval') return weight
  const { value, interval } = car.centreMm
  const [x, low, high] = [value, interval.low, interval.high].map((each) => tidy(alongX(car, each)))
  return [...weight, {
    kind: 'path', look: 'centre',
    d: `M${x! - 8} ${y}l8 -8 8 8 -8 8ZM${low} ${y}H${high}M${low} ${y - 6}v12M${high} ${y - 6}v12`,
  }]
}

function bags(car: LoadedCar, y: number): Shape[] {
  return car.bags.flatMap(({ xMm, yMm, label }): Shape[] => {
    const [x, across] = [tidy(alongX(car, xMm)), tidy(y + yMm * perMm(car))]
    return [
      { kind: 'path', look: 'bag', d: circle(x, across, 15) },
      { kind: 'text', look: 'ends', x, y: across + 5, anchor: 'middle', text: label, size: 14 },
    ]
  })
}

/**
 * The car from the side: the ground, the tray at its room over it (stretched, and by how much is told), what presses
 * each axle as an arrow to scale with its interval, bags where they lie.
 */
import { AXLES, type Axle } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import {
  alongX, AXLE_X, BARE, BESIDE_ARROW, BESIDE_WHEEL, NOSE, outward, perMm, sizeFor, TAIL, tidy, WIDTH,
} from './place'
import type { Drawing, LoadedCar, Shape, Texts } from './types'

const HEIGHT = 300
const GROUND = 268
const WHEEL = 33
/** Arrows end here, above the bodywork, and are at most so long. */
const TIP = 158
const LONGEST = 128
const HALF_SHAFT = 8
const HEAD = { half: 15, long: 17 }
/** The room at rest is drawn at most so high. */
const MOST_ROOM = 62
/** Of the tray whose room is not known. */
const SUPPOSED_ROOM = 30

const STRETCHES = [10, 5, 2, 1] as const

/** How many times taller than long heights under the tray are drawn: ten, or less where ten has no room. */
export function stretchOf(car: LoadedCar): number {
  const most = Math.max(0, ...AXLES.map((axle) => car.roomMm[axle] ?? 0))
  return STRETCHES.find((each) => most * perMm(car) * each <= MOST_ROOM) ?? 1
}

/** The value a length is drawn by: what is told, or the end that is. */
export function drawnOf(said: Statement): number | null {
  switch (said.kind) {
    case 'interval': return said.value
    case 'atLeast': case 'atMost': return said.bound
    case 'between': return (said.low + said.high) / 2
    case 'untold': return null
  }
}

/** The largest end of a load, N: what the longest arrow stands for. */
export function largestLoad(loads: readonly Statement[]): number {
  const ends = loads.flatMap((said): number[] => {
    switch (said.kind) {
      case 'interval': return [said.interval.low, said.interval.high]
      case 'between': return [said.low, said.high]
      case 'atLeast': case 'atMost': return [said.bound]
      case 'untold': return []
    }
  })
  return Math.max(1e-9, ...ends.map(Math.abs))
}

/**
 * @param texts the words beside it; null for a narrow place, where they stand elsewhere
 * @param longestN what the longest arrow stands for, N
 */
export function fromSide(car: LoadedCar, texts: Texts | null, longestN: number): Drawing {
  const up = perMm(car) * stretchOf(car)
  const trayY = trayOver(car, up)
  return {
    ...(texts ? { x: 0, width: WIDTH } : BARE), height: HEIGHT, shapes: [
      ...ground(), bodywork(trayY), ...bags(car, trayY), ...AXLES.map((axle) => wheel(axle)), ...tray(car, trayY),
      ...AXLES.flatMap((axle) => [
        ...arrow(car, axle, (LONGEST - 6) / longestN), ...room(car, axle, up),
        ...(texts ? words(car, axle, texts) : []),
      ]),
    ],
  }
}

/** Height of the tray over the drawing, straight through what is known at both axle lines. */
function trayOver(car: LoadedCar, up: number): (x: number) => number {
  const at = (axle: Axle): number => {
    const { clearanceMm, state } = car.axles[axle]
    if (state === 'touching' || state === 'unstable') return GROUND
    const drawn = drawnOf(clearanceMm)
    return GROUND - (drawn === null ? SUPPOSED_ROOM : Math.max(0, drawn) * up)
  }
  const [front, rear] = [at('front'), at('rear')]
  return (x) => Math.min(GROUND, front + ((rear - front) * (x - AXLE_X.front)) / (AXLE_X.rear - AXLE_X.front))
}

const ground = (): Shape[] => {
  const [left, right] = [AXLE_X.front - NOSE - 60, AXLE_X.rear + TAIL + 60]
  const strokes = Array.from({ length: Math.floor((right - left) / 14) }, (_, i) =>
    `M${left + 14 * i + 10} ${GROUND + 2}l-8 9`)
  return [
    { kind: 'path', look: 'hatch', d: strokes.join('') }, { kind: 'path', look: 'ground', d: `M${left} ${GROUND}H${right}` },
  ]
}

/** Heights of the bodywork over its tray along the car, drawing units: a sketch. */
const PROFILE: readonly (readonly [along: number, high: number])[] = [
  [-NOSE, 12], [-NOSE + 4, 22], [-30, 34], [46, 46], [78, 72], [130, 82], [176, 76], [214, 54], [262, 50],
  [250 + TAIL, 46], [250 + TAIL, 10],
]

function bodywork(trayY: (x: number) => number): Shape {
  const point = (along: number, high: number): string => {
    const x = AXLE_X.front + along
    return `${tidy(x)} ${tidy(trayY(x) - high)}`
  }
  const [nose, tail] = [AXLE_X.front - NOSE, AXLE_X.rear + TAIL]
  const top = PROFILE.map(([along, high]) => point(along, high)).join('L')
  const wing = `M${point(246, 50)}L${point(252, 84)}M${point(226, 86)}L${point(250 + TAIL + 6, 80)}`
  return { kind: 'path', look: 'shell', d: `M${nose} ${tidy(trayY(nose))}L${top}L${tail} ${tidy(trayY(tail))}Z${wing}` }
}

const wheel = (axle: Axle): Shape => {
  const [x, y] = [AXLE_X[axle], GROUND - WHEEL]
  return { kind: 'path', look: 'wheel', also: axle, d: `${circle(x, y, WHEEL - 3)}${circle(x, y, 5)}` }
}

export const circle = (x: number, y: number, r: number): string =>
  `M${tidy(x - r)} ${tidy(y)}a${tidy(r)} ${tidy(r)} 0 1 0 ${tidy(2 * r)} 0a${tidy(r)} ${tidy(r)} 0 1 0 ${tidy(-2 * r)} 0`

/** The tray, and which half of it is down: thick, toothed and named, not only in another colour. */
function tray(car: LoadedCar, trayY: (x: number) => number): Shape[] {
  const [left, middle, right] = [AXLE_X.front - NOSE + 8, (AXLE_X.front + AXLE_X.rear) / 2, AXLE_X.rear + TAIL - 8]
  const part = (from: number, to: number): string => `M${from} ${tidy(trayY(from))}L${to} ${tidy(trayY(to))}`
  const known = AXLES.every((axle) => drawnOf(car.axles[axle].clearanceMm) !== null)
  const whole: Shape = { kind: 'path', look: known ? 'tray' : 'trayUnknown', d: part(left, right) }
  const down = AXLES.filter((axle) => isDown(car, axle)).map((axle): Shape => {
    const [from, to] = axle === 'front' ? [left, middle] : [middle, right]
    const teeth = Array.from({ length: 8 }, (_, i) => `M${tidy(from + ((i + 0.5) * (to - from)) / 8)} ${GROUND - 5}l-5 -9h10Z`)
    return { kind: 'path', look: 'trayDown', d: teeth.join('') }
  })
  return [whole, ...down]
}

export const isDown = (car: LoadedCar, axle: Axle): boolean =>
  car.axles[axle].state === 'touching' || car.axles[axle].state === 'unstable'

/** An arrow down onto an axle, up where it lifts; open where only a bound is known. */
function arrow(car: LoadedCar, axle: Axle, perN: number): Shape[] {
  const said = car.axles[axle].loadN
  const x = AXLE_X[axle]
  switch (said.kind) {
    case 'untold': return [{ kind: 'path', look: 'open', also: axle, d: `M${x} ${TIP}v-34m-9 9 9-9 9 9` }]
    case 'interval': return [
      { kind: 'path', look: axle, d: solid(x, said.value * perN) }, whisker(x, said.interval.low * perN, said.interval.high * perN),
    ]
    case 'between': return [
      { kind: 'path', look: 'open', also: axle, d: solid(x, said.low * perN) }, whisker(x, said.low * perN, said.high * perN),
    ]
    case 'atLeast': case 'atMost': {
      const long = said.bound * perN
      const way = said.kind === 'atLeast' ? 1 : -1
      return [
        { kind: 'path', look: 'open', also: axle, d: solid(x, long) },
        { kind: 'path', look: 'whisker', d: beyond(x, TIP - long, way) },
      ]
    }
  }
}

/** From a bound on: a stroke with an arrowhead that says "and more", or "and less". */
const beyond = (x: number, y: number, way: 1 | -1): string =>
  `M${x} ${tidy(y - 3 * way)}v${-18 * way}m-6 ${7 * way} 6 ${-7 * way} 6 ${7 * way}`

function solid(x: number, long: number): string {
  if (Math.abs(long) < 0.5) return ''
  const way = long > 0 ? 1 : -1
  const size = Math.abs(long)
  const head = Math.min(HEAD.long, size)
  const [tip, tail] = way > 0 ? [TIP, TIP - size] : [TIP - size, TIP]
  const neck = tip - way * head
  return `M${x} ${tidy(tip)}L${x + HEAD.half} ${tidy(neck)}H${x + HALF_SHAFT}V${tidy(tail)}H${x - HALF_SHAFT}V${tidy(neck)}H${x - HEAD.half}Z`
}

const whisker = (x: number, low: number, high: number): Shape => {
  const [from, to] = [tidy(TIP - low), tidy(TIP - high)]
  return { kind: 'path', look: 'whisker', d: `M${x} ${from}V${to}M${x - 11} ${from}h22M${x - 11} ${to}h22` }
}

/** The room under the tray at an axle line, with its interval. */
function room(car: LoadedCar, axle: Axle, up: number): Shape[] {
  const said = car.axles[axle].clearanceMm
  if (said.kind !== 'interval' || isDown(car, axle)) return []
  const x = AXLE_X[axle] + outward(axle) * 46
  const at = (mm: number): number => tidy(GROUND - Math.max(0, mm) * up)
  const { low, high } = said.interval
  return [{
    kind: 'path', look: 'room',
    d: `M${x} ${GROUND}V${at(said.value)}M${x - 5} ${at(low)}h10M${x - 5} ${at(high)}h10M${x} ${at(low)}V${at(high)}`,
  }]
}

const SIZES: Readonly<Record<'name' | 'load' | 'bound' | 'down' | 'ends', number>> =
  { name: 15, load: 21, bound: 21, down: 18, ends: 14 }

/** Words of an axle, outward of it: its load beside the arrow, its room beside the wheel. */
function words(car: LoadedCar, axle: Axle, texts: Texts): Shape[] {
  const anchor = axle === 'front' ? 'end' : 'start'
  const line = (out: number, y: number, look: keyof typeof SIZES, text: string): Shape[] => {
    const x = AXLE_X[axle] + outward(axle) * out
    const roomUnits = (axle === 'front' ? x : WIDTH - x) - 4
    return text === '' ? []
      : [{ kind: 'text', look, also: axle, x, y, anchor, text, size: sizeFor(text, roomUnits, SIZES[look]) }]
  }
  const { name, load, ends, room: left, roomEnds } = texts[axle]
  return [
    ...line(BESIDE_ARROW, 58, 'name', name),
    ...line(BESIDE_ARROW, 84, car.axles[axle].loadN.kind === 'interval' ? 'load' : 'bound', load),
    ...line(BESIDE_ARROW, 104, 'ends', ends),
    ...line(BESIDE_WHEEL, 240, isDown(car, axle) ? 'down' : 'load', left), ...line(BESIDE_WHEEL, 260, 'ends', roomEnds),
  ]
}

/** Bags where they lie, upon each other where they lie on one spot. */
function bags(car: LoadedCar, trayY: (x: number) => number): Shape[] {
  const heights = new Map<number, number>()
  return car.bags.flatMap(({ xMm, label }): Shape[] => {
    const x = alongX(car, xMm)
    const spot = Math.round(x / 10)
    const under = heights.get(spot) ?? 0
    heights.set(spot, under + 1)
    const y = tidy(trayY(x) - 46 - 26 * under)
    return [
      { kind: 'path', look: 'bag', d: `M${tidy(x - 17)} ${y}q-3 -16 9 -19l3 -5h10l3 5q12 3 9 19Z` },
      { kind: 'text', look: 'ends', x: tidy(x), y: y - 5, anchor: 'middle', text: label, size: 14 },
    ]
  })
}

/**
 * What a newcomer has in a spreadsheet: a car of its own with two set-ups, bags on the scale, a squat test there and
 * back at three places, the jet at three settings. Written as tables, with the truth they were drawn from. Drawn by
 * formulas of its own: a force makes a drop by a spring that grows stiffer, air makes a force by its speed squared.
 */
import { Chance } from './draws'

const G = 9.81
/** Density of air at 20 °C and 150 m above the sea, half damp, kg/m3 (from memory). */
const DENSITY = 1.178
const WHEELBASE_MM = 264
const REST_MM = { frontLeft: 17.3, frontRight: 17.5, rearLeft: 19.1, rearRight: 18.9 }
const CORNERS = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'] as const
const BAGS_G = [248, 231, 209, 187]
const SPEEDS_MS = [15, 19, 24]
const SET_UPS = {
  'Flat floor': { front: 0.0052, rear: 0.0079 },
  'Long diffuser': { front: 0.0049, rear: 0.0118 },
} as const
const RATE = { front: 1.9, rear: 2.2 }
/** Stiffening of each axle, N/mm2. */
const GROWS = { front: 0.05, rear: 0.04 }
const GAUGE_MM = 0.01
const READ_MM = 0.015

export type SetUpName = keyof typeof SET_UPS

export interface NewcomersSheets {
  readonly wheelbaseMm: number
  readonly bags: string
  readonly squat: string
  readonly heights: string
  readonly speeds: string
  readonly truth: {
    readonly claM2: Readonly<Record<SetUpName, { readonly front: number; readonly rear: number }>>
    /** Long diffuser less flat floor, both axles together. */
    readonly moreM2: number
  }
}

type Axles = { readonly front: number; readonly rear: number }

/** Drop of an axle under a force: rate times drop and half its growth times the drop squared carry it. */
const drop = (end: keyof Axles, forceN: number): number =>
  (-RATE[end] + Math.sqrt(RATE[end] ** 2 + 2 * GROWS[end] * forceN)) / GROWS[end]

const table = (rows: readonly (readonly (string | number)[])[]): string =>
  `${rows.map((row) => row.join('\t')).join('\n')}\n`

export function newcomersSheets(seed: number): NewcomersSheets {
  const chance = new Chance(seed)
  const heights = (forces: Axles): string[] => CORNERS.map((corner) => {
    const end = corner.startsWith('front') ? 'front' : 'rear'
    const mm = REST_MM[corner] - drop(end, forces[end]) + chance.normal(0, READ_MM)
    return (Math.round(mm / GAUGE_MM) * GAUGE_MM).toFixed(2)
  })
  const none = { front: 0, rear: 0 }
  const heads = ['FL', 'FR', 'RL', 'RR']

  const squat: (string | number)[][] = [['load g', 'place', 'direction', ...heads]]
  for (const [place, share] of [['middle', 0.5], ['front', 0], ['rear', 1]] as const) {
    squat.push([0, '', 'zero', ...heights(none)])
    const up = BAGS_G.map((_, i) => i + 1)
    for (const [i, count] of [...up, ...up.slice(0, -1).reverse()].entries()) {
      const grams = BAGS_G.slice(0, count).reduce((sum, each) => sum + each, 0)
      const newtons = (grams / 1000) * G
      const under = { front: newtons * (1 - share), rear: newtons * share }
      squat.push([grams, place, i < up.length ? 'up' : 'down', ...heights(under)])
    }
  }
  squat.push([0, '', 'zero', ...heights(none)])

  const blown: (string | number)[][] = [['run', 'set-up', 'air', ...heads]]
  const speeds: (string | number)[][] = [['run', 'y', 'z', 'speed 1', 'speed 2']]
  for (const [i, speedMs] of SPEEDS_MS.entries()) {
    for (const [name, { front, rear }] of Object.entries(SET_UPS)) {
      const run = `${name} ${i + 1}`
      const push = (DENSITY / 2) * speedMs * speedMs
      for (const air of ['off', 'on', 'off', 'on', 'off'] as const) {
        blown.push([run, name, air, ...heights(air === 'on' ? { front: push * front, rear: push * rear } : none)])
      }
      for (const z of [20, 60]) {
        for (const y of [-60, 0, 60]) {
          const read = () => (speedMs + chance.normal(0, 0.1)).toFixed(1)
          speeds.push([run, y, z, read(), read()])
        }
      }
    }
  }
  const sum = ({ front, rear }: Axles) => front + rear
  return {
    wheelbaseMm: WHEELBASE_MM,
    bags: table(BAGS_G.map((grams, i) => [`Bag ${i + 1}`, grams])),
    squat: table(squat), heights: table(blown), speeds: table(speeds),
    truth: { claM2: SET_UPS, moreM2: sum(SET_UPS['Long diffuser']) - sum(SET_UPS['Flat floor']) },
  }
}

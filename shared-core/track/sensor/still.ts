/**
 * One face of the six positions out of a short log at rest, a file's text or a paste: mean and scatter of the
 * three axes, and which face was up. A sensor that was moved, or a log without gravity, is refused with its reason.
 */
import { FACES, type Face } from '@core/schema'
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import { seriesMean } from '../log/autocorrelation'
import { proposeMapping } from '../log/columns'
import { proposeLayout } from '../log/layout'
import { LogReader } from '../log/reader'
import { SENSOR_AXES, type AccelerationUnit, type LogLayout, type LogMapping, type SensorAxis } from '../log/types'

type OfAxes = Readonly<Record<SensorAxis, number>>

export interface StillReading {
  readonly up: Face
  readonly count: number
  /** Means as logged, m/s2. */
  readonly shownMs2: OfAxes
  /** Standard uncertainty of each mean by its own noise and its memory. */
  readonly uMs2: OfAxes
  /** The unit that was read, and whether no name told it. */
  readonly unit: AccelerationUnit
  readonly unitGuessed: boolean
}

export type StillTrouble = 'noNumbers' | 'noAxes' | 'tooFew' | 'moved' | 'noGravity' | 'onEdge'

const SAMPLE = 65_536
const LEAST_ROWS = 10
/** Halves of a log at rest agree within this, m/s2, or within five u of their difference. */
const HALVES_MS2 = 0.05
/** A sensor without calibration shows gravity within this share. */
const GRAVITY_WITHIN = 0.2
/** The face is flat where its axis shows at least this share of gravity: within 18 degrees. */
const FLAT_SHARE = 0.95

/** Columns without names: three are x, y and z, a fourth before them is the time, which matters not here. */
function axesByPlace({ names }: LogLayout): LogMapping['axes'] {
  const first = names.length - 3
  return first < 0 ? { x: null, y: null, z: null } : { x: first, y: first + 1, z: first + 2 }
}

/** What of a log's text one face is; the text holds the sensor at rest and nothing else. */
export function stillReading(text: string): StillReading | { readonly trouble: StillTrouble } {
  const sample = text.slice(0, SAMPLE)
  const layout = proposeLayout(sample)
  if (!layout) return { trouble: 'noNumbers' }
  const { mapping, guesses } = proposeMapping(sample, layout)
  const named = SENSOR_AXES.every((axis) => mapping.axes[axis] !== null)
  const axes = named ? mapping.axes : axesByPlace(layout)
  if (SENSOR_AXES.some((axis) => axes[axis] === null)) return { trouble: 'noAxes' }
  // Nothing here goes by the clock; without names the unit is asked of the columns that were taken.
  const asked = named ? { mapping, guesses } : proposeMapping(sample, { ...layout, names: namesFor(layout) })
  const reader = new LogReader(layout, { ...asked.mapping, axes, time: { rateHz: 100 }, speed: null })
  reader.push(text)
  const { axes: columns, count } = reader.end()
  if (count < LEAST_ROWS) return { trouble: 'tooFew' }
  const guessed = asked.guesses.some(({ what }) => what === 'accelerationUnit' || what === 'countsPerG')
  return read(columns as Readonly<Record<SensorAxis, Float64Array>>, count, asked.mapping.accelerationUnit, guessed)
}

const namesFor = ({ names }: LogLayout): string[] =>
  names.map((name, at) => ({ 3: 'x', 2: 'y', 1: 'z' })[names.length - at] ?? name)

function read(
  columns: Readonly<Record<SensorAxis, Float64Array>>, count: number, unit: AccelerationUnit, unitGuessed: boolean,
): StillReading | { readonly trouble: StillTrouble } {
  const half = Math.floor(count / 2)
  const moved = SENSOR_AXES.some((axis) => {
    const [a, b] = [seriesMean(columns[axis], 0, half), seriesMean(columns[axis], half, count)]
    return Math.abs(a.mean - b.mean) > Math.max(HALVES_MS2, 5 * Math.hypot(a.u, b.u))
  })
  if (moved) return { trouble: 'moved' }
  const means = ofAxes((axis) => seriesMean(columns[axis], 0, count))
  const shownMs2 = ofAxes((axis) => means[axis].mean)
  const size = Math.hypot(...Object.values(shownMs2))
  if (Math.abs(size / STANDARD_GRAVITY_MS2 - 1) > GRAVITY_WITHIN) return { trouble: 'noGravity' }
  const [most] = [...SENSOR_AXES].sort((a, b) => Math.abs(shownMs2[b]) - Math.abs(shownMs2[a]))
  if (Math.abs(shownMs2[most!]) < FLAT_SHARE * size) return { trouble: 'onEdge' }
  const up = FACES.find((face) => face === `${most!}${shownMs2[most!] > 0 ? 'Up' : 'Down'}`)!
  return { up, count, shownMs2, uMs2: ofAxes((axis) => means[axis].u), unit, unitGuessed }
}

const ofAxes = <T>(of: (axis: SensorAxis) => T): Record<SensorAxis, T> => ({ x: of('x'), y: of('y'), z: of('z') })

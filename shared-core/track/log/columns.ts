/** Proposes what the columns of a log mean, from their names and first rows; the builder has the last word. */
import { fieldsOf, linesOf } from './layout'
import { clockSeconds, fieldNumber } from './fields'
import {
  SENSOR_AXES, type AccelerationUnit, type LogGuess, type LogLayout, type LogMapping, type SensorAxis, type TimeUnit,
  type YawColumn,
} from './types'

const TIME = /^(t|time|zeit|timestamp|elapsed|secs?|seconds|milli|ms|clock|uhrzeit)\b|time|zeit|nanos|micros|millis|elapsed|^(us|µs|ns)$/i
const PLAIN = /^[xyz]$/i
const ACCELERATION = /acc|beschl|^a[ _-]?[xyz]\b|g[ _-]?force|^gf?[ _-]?[xyz]\b|^[xyz]$|lateral|longitudinal|vertical|quer|l(ä|ae)ngs/i
const NOT_ACCELERATION = /gyro|rot|mag(net)?|angle|angular|winkel|pressure|temp/i
const SPEED = /speed|velocity|geschw|km\/?h|mph/i

const AXIS: Record<SensorAxis, RegExp> = {
  x: /longitudinal|l(ä|ae)ngs|(^|[^a-z])(a|g|acc\w*)?[ _-]?x([^a-z]|$)|x$/i,
  y: /lateral|quer|(^|[^a-z])(a|g|acc\w*)?[ _-]?y([^a-z]|$)|y$/i,
  z: /vertical|hoch|(^|[^a-z])(a|g|acc\w*)?[ _-]?z([^a-z]|$)|z$/i,
}

/** A mapping, and what of it is only guessed. */
export interface ProposedMapping { readonly mapping: LogMapping; readonly guesses: readonly LogGuess[] }

const NO_AXES: LogMapping['axes'] = { x: null, y: null, z: null }

/**
 * Proposes a mapping. What no name tells is guessed and listed; where no column looks like an
 * acceleration the axes stay empty, and without a time column the rate is asked, unless a comment tells it.
 *
 * @param sample the same first part of the log that gave the layout
 */
export function proposeMapping(sample: string, layout: LogLayout): ProposedMapping {
  const rows = linesOf(sample).slice(layout.firstLine - 1, layout.firstLine + 300)
    .map((line) => fieldsOf(line, layout.delimiter)).filter((row) => row.length === layout.names.length)
  const bare = layout.names.map((name) => name.replace(/[[(].*/, '').trim())
  const time = timeColumn(bare, rows, layout)
  const columns = accelerationColumns(bare, time)
  const { axes, byOrder } = axesOf(bare, columns)
  const speed = layout.names.findIndex((name, column) =>
    SPEED.test(name) && column !== time && !columns.includes(column))
  const mapping: LogMapping = {
    time: time < 0 ? { rateHz: layout.saidRateHz } : { column: time, unit: 'second' }, axes,
    accelerationUnit: 'standardGravity', countsPerG: null, speed: speed < 0 ? null : { column: speed, unit: 'metrePerSecond' },
  }
  const { units, guesses } = proposeUnits(layout, mapping, rows)
  const own: LogGuess[] = [
    ...(time < 0 && layout.saidRateHz !== null ? [{ what: 'rate', by: 'byComment' } as const] : []),
    ...(byOrder ? [{ what: 'axes', by: 'byOrder' } as const] : []),
  ]
  return {
    mapping: {
      ...mapping, accelerationUnit: units.acceleration, countsPerG: units.countsPerG,
      time: 'column' in mapping.time ? { ...mapping.time, unit: units.time } : mapping.time,
      speed: mapping.speed && { ...mapping.speed, unit: units.speed },
    },
    guesses: [...own, ...guesses],
  }
}

const YAW = /yaw|gier|turn rate|(gyro?|rot\w*|omega|angular\w*)[ _-]?(rate)?[ _-]?z\b/i

/** The column of the yaw rate by its name; null where none is called so. Degrees where the name says so. */
export function proposeYaw({ names }: LogLayout): YawColumn | null {
  const column = names.findIndex((name) => YAW.test(name.replace(/[[(].*/, '')))
  if (column < 0) return null
  return { column, unit: /°|deg|dps|grad/i.test(names[column]!) ? 'degreePerSecond' : 'radianPerSecond' }
}

/** Of the columns that could be the time the one that rises most steadily, rather one with a unit; -1 without any. */
function timeColumn(names: readonly string[], rows: readonly (readonly string[])[], layout: LogLayout): number {
  const rising = (column: number): number => {
    const values = rows.map((row) => secondsOf(row[column] ?? '', layout))
    return values.filter((value, i) => i > 0 && value > values[i - 1]!).length
  }
  const [best] = names.flatMap((name, column) => (TIME.test(name)
    ? [{ column, rises: rising(column), told: unitInName(layout.names[column]!) === null ? 0 : 1 }] : []))
    .sort((a, b) => b.rises - a.rises || b.told - a.told)
  return best?.column ?? -1
}

function secondsOf(text: string, layout: LogLayout): number {
  const plain = fieldNumber(text, layout.decimal)
  return Number.isFinite(plain) ? plain : clockSeconds(text)
}

/** Columns named as accelerations; plain x, y and z only where no other is. */
function accelerationColumns(names: readonly string[], time: number): number[] {
  const found = names.flatMap((name, column) =>
    (column !== time && ACCELERATION.test(name) && !NOT_ACCELERATION.test(name) ? [column] : []))
  const named = found.filter((column) => !PLAIN.test(names[column]!))
  return named.length > 0 ? named : found
}

export interface ProposedUnits {
  readonly time: TimeUnit
  readonly acceleration: AccelerationUnit
  readonly countsPerG: number | null
  readonly speed: NonNullable<LogMapping['speed']>['unit']
}

/**
 * Units of the columns of a mapping, from their names and first rows, and which of them are guessed.
 *
 * @param rows some rows as the layout cuts them; two tell the time's step
 */
export function proposeUnits(
  layout: LogLayout, mapping: LogMapping, rows: readonly (readonly string[])[],
): { readonly units: ProposedUnits; readonly guesses: readonly LogGuess[] } {
  const texts = (column: number) => rows.map((row) => row[column] ?? '')
  const values = (column: number) => texts(column).map((text) => fieldNumber(text, layout.decimal))
    .filter((value) => Number.isFinite(value))
  const { time, axes, speed } = mapping
  const at = 'column' in time ? timeUnit(layout.names[time.column] ?? '', texts(time.column), layout) : null
  const acceleration = accelerationUnit(layout.names, axes, values)
  const ofSpeed = speed ? speedUnit(layout.names[speed.column] ?? '') : null
  const { unit, countsPerG } = acceleration
  return {
    units: {
      time: at?.unit ?? 'second', acceleration: unit, countsPerG, speed: ofSpeed ?? 'metrePerSecond',
    },
    guesses: [
      ...(at && !at.named ? [{ what: 'timeUnit', by: 'bySize' } as const] : []),
      ...(acceleration.named || Object.values(axes).every((column) => column === null) ? []
        : [{ what: 'accelerationUnit', by: 'bySize' } as const]),
      ...(countsPerG === null ? [] : [{ what: 'countsPerG', by: 'bySize' } as const]),
      ...(speed && !ofSpeed ? [{ what: 'speedUnit', by: 'byHabit' } as const] : []),
    ],
  }
}

function axesOf(
  names: readonly string[], columns: readonly number[],
): { axes: Record<SensorAxis, number | null>; byOrder: boolean } {
  const axes: Record<SensorAxis, number | null> = { ...NO_AXES }
  for (const axis of SENSOR_AXES) axes[axis] = columns.find((column) => AXIS[axis].test(names[column]!)) ?? null
  if (columns.length === 0 || SENSOR_AXES.some((axis) => axes[axis] !== null)) return { axes, byOrder: false }
  columns.slice(0, 3).forEach((column, index) => { axes[SENSOR_AXES[columns.length === 1 ? 1 : index]!] = column })
  return { axes, byOrder: true }
}

/** From the unit in the name, else from the size of the steps. */
function timeUnit(name: string, texts: readonly string[], layout: LogLayout): { unit: TimeUnit; named: boolean } {
  const values = texts.map((text) => fieldNumber(text, layout.decimal))
  const numeric = values.some((value) => Number.isFinite(value))
  if (!numeric && texts.some((text) => Number.isFinite(clockSeconds(text)))) return { unit: 'clock', named: true }
  const unit = unitInName(name)
  if (unit) return { unit, named: true }
  const steps = values.slice(1).map((value, index) => value - values[index]!)
    .filter((step) => step > 0).sort((a, b) => a - b)
  const middle = steps[Math.floor(steps.length / 2)] ?? 0
  const bySize = middle >= 1e5 ? 'nanosecond' : middle >= 1000 ? 'microsecond' : middle >= 1 ? 'millisecond' : 'second'
  return { unit: bySize, named: false }
}

/** The unit of time that a name tells; null where it tells none. */
function unitInName(name: string): Exclude<TimeUnit, 'clock'> | null {
  if (/[[( _](ms|milli)|millis|^ms$/i.test(name)) return 'millisecond'
  if (/[[( _](us|µs|μs|micro)|micros|^[uµμ]s$/i.test(name)) return 'microsecond'
  if (/[[( _](ns|nano)|nanos|^ns$/i.test(name)) return 'nanosecond'
  return /[[( _]s(ec(ond)?s?)?\b|^s(ec(ond)?s?)?$|seconds/i.test(name) ? 'second' : null
}

/** What gravity looks like in each unit, and in the converters that are usual: so many counts to a g. */
const GRAVITY_LOOKS = [
  { unit: 'standardGravity', size: 1 }, { unit: 'metrePerSecondSquared', size: 9.80665 },
  { unit: 'milliGravity', size: 1000 }, { unit: 'millimetrePerSecondSquared', size: 9806.65 },
  ...[256, 2048, 4096, 8192, 16_384].map((size) => ({ unit: 'counts' as const, size })),
] as const

/** From the unit in a name, else from the size of the whole vector, which is gravity most of the time. */
function accelerationUnit(
  names: readonly string[], axes: Record<SensorAxis, number | null>, values: (column: number) => number[],
): { unit: AccelerationUnit; countsPerG: number | null; named: boolean } {
  const columns = SENSOR_AXES.flatMap((axis) => axes[axis] ?? [])
  const named = columns.map((column) => names[column] ?? '').join(' ')
  const said = (unit: AccelerationUnit) => ({ unit, countsPerG: null, named: true })
  if (/mm\/?s/i.test(named)) return said('millimetrePerSecondSquared')
  if (/m\/?s/i.test(named)) return said('metrePerSecondSquared')
  if (/[[( ]mg\b/i.test(named)) return said('milliGravity')
  if (/[[( ]g\b|^gf?[xyz]\b/i.test(named)) return said('standardGravity')
  const all = columns.map(values)
  const size = Math.sqrt(all.reduce((sum, each) =>
    sum + each.reduce((total, value) => total + value * value, 0) / Math.max(1, each.length), 0))
  const whole = all.every((each) => each.every(Number.isInteger))
  const [nearest] = GRAVITY_LOOKS.filter(({ unit }) => whole || unit !== 'counts')
    .map((each) => ({ ...each, off: Math.abs(Math.log(Math.max(size, 1e-9) / each.size)) }))
    .sort((a, b) => a.off - b.off)
  const { unit, size: perG } = nearest!
  return { unit, countsPerG: unit === 'counts' ? perG : null, named: false }
}

/** Null where the name tells none. */
function speedUnit(name: string): NonNullable<LogMapping['speed']>['unit'] | null {
  if (/km\/?h|kph/i.test(name)) return 'kilometrePerHour'
  if (/mph/i.test(name)) return 'milePerHour'
  return /m\/s|metre|meter/i.test(name) ? 'metrePerSecond' : null
}

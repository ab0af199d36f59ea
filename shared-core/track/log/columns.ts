/** Proposes what the columns of a log mean, from their names and first rows; the builder has the last word. */
import { fieldsOf, linesOf } from './layout'
import { clockSeconds, fieldNumber } from './fields'
import { SENSOR_AXES, type AccelerationUnit, type LogLayout, type LogMapping, type SensorAxis, type TimeUnit } from './types'

const TIME = /^(t|time|zeit|timestamp|elapsed|secs?|seconds|milli|ms|clock|uhrzeit)\b|time|zeit/i
const ACCELERATION = /acc|beschl|^a[ _-]?[xyz]\b|g[ _-]?force|^g[ _-]?[xyz]\b|lateral|longitudinal|vertical|quer|l(ä|ae)ngs/i
const NOT_ACCELERATION = /gyro|rot|mag(net)?|angle|angular|winkel|pressure|temp/i
const SPEED = /speed|velocity|geschw|km\/?h|mph/i

const AXIS: Record<SensorAxis, RegExp> = {
  x: /longitudinal|l(ä|ae)ngs|(^|[^a-z])(a|g|acc\w*)?[ _-]?x([^a-z]|$)|x$/i,
  y: /lateral|quer|(^|[^a-z])(a|g|acc\w*)?[ _-]?y([^a-z]|$)|y$/i,
  z: /vertical|hoch|(^|[^a-z])(a|g|acc\w*)?[ _-]?z([^a-z]|$)|z$/i,
}

/**
 * Proposes a mapping; null where no column looks like an acceleration.
 *
 * @param sample the same first part of the log that gave the layout
 */
export function proposeMapping(sample: string, layout: LogLayout): LogMapping | null {
  const rows = linesOf(sample).slice(layout.firstLine - 1, layout.firstLine + 300)
    .map((line) => fieldsOf(line, layout.delimiter)).filter((row) => row.length === layout.names.length)
  const bare = layout.names.map((name) => name.replace(/[[(].*/, '').trim())
  const time = bare.findIndex((name) => TIME.test(name))
  const columns = bare.flatMap((name, column) =>
    (column !== time && ACCELERATION.test(name) && !NOT_ACCELERATION.test(name) ? [column] : []))
  const axes = axesOf(bare, columns)
  if (SENSOR_AXES.every((axis) => axes[axis] === null)) return null
  const values = (column: number) => rows.map((row) => fieldNumber(row[column] ?? '', layout.decimal))
    .filter((value) => Number.isFinite(value))
  const speed = layout.names.findIndex((name, column) =>
    SPEED.test(name) && column !== time && !columns.includes(column))
  const times = rows.map((row) => row[time] ?? '')
  return {
    time: time < 0 ? { rateHz: 100 } : { column: time, unit: timeUnit(layout.names[time]!, times, layout) },
    axes,
    accelerationUnit: accelerationUnit(layout.names, axes, values),
    speed: speed < 0 ? null : { column: speed, unit: speedUnit(layout.names[speed]!) },
  }
}

export interface ProposedUnits {
  readonly time: TimeUnit
  readonly acceleration: AccelerationUnit
  readonly speed: NonNullable<LogMapping['speed']>['unit']
}

/**
 * Units of columns whose meaning the builder gave by hand, from their names and first rows.
 *
 * @param rows some rows as the layout cuts them; two tell the time's step
 */
export function proposeUnits(
  layout: LogLayout, mapping: LogMapping, rows: readonly (readonly string[])[],
): ProposedUnits {
  const texts = (column: number) => rows.map((row) => row[column] ?? '')
  const values = (column: number) => texts(column).map((text) => fieldNumber(text, layout.decimal))
    .filter((value) => Number.isFinite(value))
  const { time, axes, speed } = mapping
  return {
    time: 'column' in time ? timeUnit(layout.names[time.column] ?? '', texts(time.column), layout) : 'second',
    acceleration: accelerationUnit(layout.names, axes, values),
    speed: speedUnit(speed ? layout.names[speed.column] ?? '' : ''),
  }
}

function axesOf(names: readonly string[], columns: readonly number[]): Record<SensorAxis, number | null> {
  const axes: Record<SensorAxis, number | null> = { x: null, y: null, z: null }
  for (const axis of SENSOR_AXES) axes[axis] = columns.find((column) => AXIS[axis].test(names[column]!)) ?? null
  if (SENSOR_AXES.some((axis) => axes[axis] !== null)) return axes
  columns.slice(0, 3).forEach((column, index) => { axes[SENSOR_AXES[columns.length === 1 ? 1 : index]!] = column })
  return axes
}

/** From the unit in the name, else from the size of the steps. */
function timeUnit(name: string, texts: readonly string[], layout: LogLayout): TimeUnit {
  const values = texts.map((text) => fieldNumber(text, layout.decimal))
  const numeric = values.some((value) => Number.isFinite(value))
  if (!numeric && texts.some((text) => Number.isFinite(clockSeconds(text)))) return 'clock'
  if (/[[( ](ms|milli)/i.test(name)) return 'millisecond'
  if (/[[( ](us|µs|μs|micro)/i.test(name)) return 'microsecond'
  if (/[[( ](ns|nano)/i.test(name)) return 'nanosecond'
  if (/[[( ]s(ec)?\b/i.test(name)) return 'second'
  const steps = values.slice(1).map((value, index) => value - values[index]!)
    .filter((step) => step > 0).sort((a, b) => a - b)
  const middle = steps[Math.floor(steps.length / 2)] ?? 0
  return middle >= 1e5 ? 'nanosecond' : middle >= 1000 ? 'microsecond' : middle >= 1 ? 'millisecond' : 'second'
}

/** From the unit in a name, else from the size of the whole vector, which is gravity most of the time. */
function accelerationUnit(
  names: readonly string[], axes: Record<SensorAxis, number | null>, values: (column: number) => number[],
): AccelerationUnit {
  const columns = SENSOR_AXES.flatMap((axis) => axes[axis] ?? [])
  const named = columns.map((column) => names[column] ?? '').join(' ')
  if (/m\/?s/i.test(named)) return 'metrePerSecondSquared'
  if (/[[( ]mg\b/i.test(named)) return 'milliGravity'
  if (/[[( ]g\b/i.test(named)) return 'standardGravity'
  const squares = columns.map((column) => {
    const all = values(column)
    return all.reduce((sum, value) => sum + value * value, 0) / Math.max(1, all.length)
  })
  const size = Math.sqrt(squares.reduce((sum, each) => sum + each, 0))
  return size > 200 ? 'milliGravity' : size > 4 ? 'metrePerSecondSquared' : 'standardGravity'
}

const speedUnit = (name: string): NonNullable<LogMapping['speed']>['unit'] =>
  (/km\/?h|kph/i.test(name) ? 'kilometrePerHour' : /mph/i.test(name) ? 'milePerHour' : 'metrePerSecond')

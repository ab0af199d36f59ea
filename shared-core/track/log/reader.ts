/**
 * Reads a log piece by piece, so that whoever feeds it can show progress and stop. Every row either
 * becomes a sample or is counted and listed with its line and the reason; none vanishes.
 */
import Papa from 'papaparse'
import { STANDARD_GRAVITY_MS2, toKept } from '@core/units'
import { clockSeconds, fieldNumber } from './fields'
import { fieldsOf } from './layout'
import {
  MOST_LISTED, SENSOR_AXES, type AccelerationUnit, type BadReason, type BadRow, type BadRows, type LogLayout,
  type LogMapping, type LogTable, type SensorAxis, type TimeUnit,
} from './types'

const TIME_SCALE: Record<Exclude<TimeUnit, 'clock'>, number> =
  { second: 1, millisecond: 1e-3, microsecond: 1e-6, nanosecond: 1e-9 }
const ACCELERATION_SCALE: Record<Exclude<AccelerationUnit, 'counts'>, number> = {
  metrePerSecondSquared: 1, standardGravity: STANDARD_GRAVITY_MS2, milliGravity: STANDARD_GRAVITY_MS2 / 1000,
  millimetrePerSecondSquared: 1e-3,
}

const YAW_SCALE = { radianPerSecond: 1, degreePerSecond: Math.PI / 180 } as const

/** m/s2 per unit logged; not a number where counts have no scale yet. */
const accelerationScale = ({ accelerationUnit, countsPerG }: LogMapping): number =>
  (accelerationUnit === 'counts' ? STANDARD_GRAVITY_MS2 / (countsPerG ?? NaN) : ACCELERATION_SCALE[accelerationUnit])

const LONGEST_TEXT = 120
/** Ten thousand g, or as many m/s: no sensor of a scale car shows more. */
const LARGEST_KEPT = 1e5

/** A list of bad rows under way. */
export class BadRowList {
  private total = 0
  private readonly byReason: Partial<Record<BadReason, number>> = {}
  private readonly listed: BadRow[] = []

  add(line: number, text: string, why: BadReason, column: string | null): void {
    this.total++
    this.byReason[why] = (this.byReason[why] ?? 0) + 1
    if (this.listed.length < MOST_LISTED) this.listed.push({ line, text: text.slice(0, LONGEST_TEXT), why, column })
  }

  result(): BadRows {
    return { total: this.total, byReason: { ...this.byReason }, listed: [...this.listed] }
  }
}

/** A column of numbers that grows. */
class Growing {
  private values = new Float64Array(4096)
  count = 0

  add(value: number): void {
    if (this.count === this.values.length) {
      const larger = new Float64Array(this.values.length * 2)
      larger.set(this.values)
      this.values = larger
    }
    this.values[this.count++] = value
  }

  result(): Float64Array { return this.values.slice(0, this.count) }
}

interface Wanted { readonly column: number; readonly scale: number; readonly into: Growing }

/** True where a mapping says all that reading needs: an axis, a time or a rate, a scale where counts were logged. */
export const isMapped = ({ axes, time, accelerationUnit, countsPerG }: LogMapping): boolean =>
  SENSOR_AXES.some((axis) => axes[axis] !== null) && ('column' in time || time.rateHz !== null)
  && (accelerationUnit !== 'counts' || countsPerG !== null)

/**
 * Feed it the log's text in pieces of any size with `push`, then take the table with `end`. The mapping
 * must be whole (`isMapped`).
 */
export class LogReader {
  private carry = ''
  private line = 0
  private blank = 0
  private readonly bad = new BadRowList()
  private readonly time = new Growing()
  private readonly lines = new Growing()
  private readonly wanted: Wanted[]
  private readonly axes: Partial<Record<SensorAxis, Growing>> = {}
  private readonly speed: Growing | null
  private readonly yaw: Growing | null
  private readonly widest: number
  private readonly row: Float64Array

  constructor(private readonly layout: LogLayout, private readonly mapping: LogMapping) {
    this.wanted = []
    for (const axis of SENSOR_AXES) {
      const column = mapping.axes[axis]
      if (column === null) continue
      const into = this.axes[axis] = new Growing()
      this.want(column, accelerationScale(mapping), into)
    }
    this.speed = mapping.speed ? new Growing() : null
    if (mapping.speed) this.want(mapping.speed.column, toKept(1, mapping.speed.unit), this.speed as Growing)
    this.yaw = mapping.yaw ? new Growing() : null
    if (mapping.yaw) this.want(mapping.yaw.column, YAW_SCALE[mapping.yaw.unit], this.yaw as Growing)
    const timeColumn = 'column' in mapping.time ? mapping.time.column : 0
    this.widest = Math.max(timeColumn, ...this.wanted.map(({ column }) => column))
    this.row = new Float64Array(this.wanted.length)
  }

  private want(column: number, scale: number, into: Growing): void {
    this.wanted.push({ column, scale, into })
  }

  /** Rows read so far. */
  get count(): number { return this.time.count }

  /** Takes the next piece of the text. */
  push(text: string): void {
    const whole = this.carry + (this.line === 0 && this.carry === '' ? text.replace(/^\ufeff/, '') : text)
    // A CR at the very end may be the first half of CR LF.
    const usable = whole.endsWith('\r') ? whole.length - 1 : whole.length
    const cut = usable === 0 ? 0 : Math.max(whole.lastIndexOf('\n', usable - 1), whole.lastIndexOf('\r', usable - 1)) + 1
    this.carry = whole.slice(cut)
    if (cut > 0) this.take(whole.slice(0, cut))
  }

  /** The last line, and the table. */
  end(): LogTable {
    if (this.carry !== '') this.take(`${this.carry}\n`)
    this.carry = ''
    return {
      count: this.time.count, timeS: this.time.result(),
      axes: Object.fromEntries(Object.entries(this.axes).map(([axis, column]) => [axis, column.result()])),
      speedMs: this.speed?.result() ?? null, yawRadS: this.yaw?.result() ?? null,
      line: Uint32Array.from(this.lines.result()), bad: this.bad.result(), blankLines: this.blank, lineCount: this.line,
    }
  }

  /** Whole lines, the last one ended. */
  private take(text: string): void {
    const even = text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text
    const body = even.slice(0, -1)
    if (this.layout.delimiter === ' ' || body === '' || body.includes('"')) {
      for (const line of body.split('\n')) this.takeRow(fieldsOf(line, this.layout.delimiter), () => line)
      return
    }
    const { delimiter } = this.layout
    const { data } = Papa.parse<string[]>(body, { delimiter, newline: '\n' })
    for (const row of data) this.takeRow(row, () => row.join(delimiter))
  }

  private takeRow(fields: readonly string[], text: () => string): void {
    this.line++
    if (this.line < this.layout.firstLine) return
    if (fields.length <= 1 && (fields[0] ?? '').trim() === '') {
      this.blank++
      return
    }
    if (fields.length <= this.widest) return this.bad.add(this.line, text(), 'tooFewColumns', null)
    for (let i = 0; i < this.wanted.length; i++) {
      const { column, scale } = this.wanted[i]!
      const value = fieldNumber(fields[column]!, this.layout.decimal)
      if (Number.isNaN(value)) return this.refuse(fields, column, text)
      if (Math.abs(value * scale) > LARGEST_KEPT) {
        return this.bad.add(this.line, text(), 'outOfRange', this.nameOf(column))
      }
      this.row[i] = value * scale
    }
    const timeS = this.timeOf(fields)
    if (Number.isNaN(timeS)) {
      return this.bad.add(this.line, text(), 'timeUnreadable', this.nameOf((this.mapping.time as { column: number }).column))
    }
    this.time.add(timeS)
    this.lines.add(this.line)
    for (let i = 0; i < this.wanted.length; i++) this.wanted[i]!.into.add(this.row[i]!)
  }

  private refuse(fields: readonly string[], column: number, text: () => string): void {
    const why = (fields[column] ?? '').trim() === '' ? 'emptyField' : 'notANumber'
    this.bad.add(this.line, text(), why, this.nameOf(column))
  }

  private nameOf(column: number): string { return this.layout.names[column] ?? `column ${column + 1}` }

  private timeOf(fields: readonly string[]): number {
    const { time } = this.mapping
    if (!('column' in time)) return this.time.count / (time.rateHz ?? NaN)
    const field = fields[time.column] as string
    return time.unit === 'clock' ? clockSeconds(field) : fieldNumber(field, this.layout.decimal) * TIME_SCALE[time.unit]
  }
}

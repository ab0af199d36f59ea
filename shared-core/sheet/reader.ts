/** Reads the cells of a mapped table; what can't be read is told by its cell, and nothing is guessed. */
import { CORNERS, moment, name, type Corner } from '../schema'
import { parseTyped, unitFor, type DecimalMark, type TypedProblem, type UnitChoice } from '../units'
import type { SheetRows } from './cut'
import { FIELDS, type SheetField } from './fields'
import { markOf, type SheetMap } from './map'

/** What is wrong with a cell or a row. */
export type CellFault =
  | TypedProblem | 'low' | 'high' | 'unknownWord' | 'unknownLoad' | 'noSuchMass' | 'loadMissing' | 'noStep' | 'noPoint'
  | 'noRun' | 'noCorner' | 'badName' | 'badMoment' | 'tooMany'

/** A cell that was refused. Rows and columns count from 1 as the table was given, its head row too. */
export interface CellProblem {
  readonly row: number
  readonly column: number
  /** The head of the column, or what it stands for; empty where neither is known. */
  readonly field: SheetField | null
  readonly fault: CellFault
  readonly typed: string
  /** Parts of the sentence: limits and what may be typed instead. */
  readonly values: Readonly<Record<string, string | number>>
}

/** Something that a table does not tell and that was taken as usual: to be looked at before it is taken in. */
export type SheetGuess = 'place' | 'air' | 'columns' | 'runsByColumn' | 'newSetUp'

/** What a table was read as. */
export interface Taken<T> {
  readonly made: T
  readonly problems: readonly CellProblem[]
  readonly guesses: readonly SheetGuess[]
}

/** Most rows of one table: as many readings as a session holds. */
const MOST_ROWS = 20_000

const YES = ['yes', 'y', 'x', '1', 'true', 'ja', 'j', 'wahr', '✓']
const NO = ['', 'no', 'n', '0', 'false', 'nein', 'falsch', '-', '–']

/** Corners by what people call them. */
const CORNER_WORDS: Readonly<Record<Corner, readonly string[]>> =
  Object.fromEntries(CORNERS.map((corner) => [corner, [corner.toLowerCase(), ...FIELDS[corner].heads]])) as never

export const plainWord = (text: string): string =>
  text.normalize('NFKD').toLowerCase().replace(/ß/g, 'ss').replace(/[^\p{L}\p{N}]/gu, '')

export class SheetReader {
  readonly problems: CellProblem[] = []
  readonly guesses = new Set<SheetGuess>()
  readonly mark: DecimalMark
  private readonly columns = new Map<SheetField, number[]>()

  constructor(readonly rows: SheetRows, readonly map: SheetMap, readonly units: UnitChoice) {
    map.columns.forEach((column, index) => {
      if (column) this.columns.set(column.field, [...(this.columns.get(column.field) ?? []), index])
    })
    const numbers = rows.slice(this.first).map((row) => row.filter((_, index) => {
      const field = map.columns[index]?.field
      return field !== undefined && FIELDS[field].quantity !== null
    }))
    this.mark = markOf(numbers, units.decimalMark)
  }

  /** Index of the first row with readings. */
  get first(): number {
    return this.map.head ? 1 : 0
  }

  /** Indices of the rows that hold anything. */
  get filled(): number[] {
    return this.rows.flatMap((row, index) => (index >= this.first && row.some((cell) => cell !== '') ? [index] : []))
  }

  has(field: SheetField): boolean {
    return this.columns.has(field)
  }

  columnsOf(field: SheetField): readonly number[] {
    return this.columns.get(field) ?? []
  }

  text(row: number, field: SheetField): string {
    return this.cell(row, this.columnsOf(field)[0] ?? -1)
  }

  cell(row: number, column: number): string {
    return this.rows[row]?.[column] ?? ''
  }

  /** A name in a cell; empty where there is none or it can't be one. */
  named(row: number, field: SheetField): string {
    const text = this.text(row, field)
    if (text === '' || name.safeParse(text).success) return text
    this.refuse(row, field, 'badName')
    return ''
  }

  refuse(row: number, field: SheetField | null, fault: CellFault, values: CellProblem['values'] = {}, column?: number): null {
    const at = column ?? (field === null ? 0 : this.columnsOf(field)[0] ?? 0)
    this.problems.push({ row: row + 1, column: at + 1, field, fault, typed: this.cell(row, at), values })
    return null
  }

  /** The number in a cell, in the unit its quantity is kept in; null where empty or refused. */
  number(row: number, field: SheetField, low: number, high: number, column = this.columnsOf(field)[0]): number | null {
    if (column === undefined) return null
    const text = this.cell(row, column)
    const { quantity } = FIELDS[field]
    if (text === '' || text === '-' || text === '–' || quantity === null) return null
    const unit = this.map.columns[column]?.unit ?? unitFor(quantity, this.units)
    const read = parseTyped(text, unit, { decimalMark: this.mark })
    if (!read.ok) return this.refuse(row, field, read.problem, read.values, column)
    if (read.kept < low) return this.refuse(row, field, 'low', { limit: low }, column)
    if (read.kept > high) return this.refuse(row, field, 'high', { limit: high }, column)
    return read.kept
  }

  /** Which of some words a cell says; null where empty, refused where it is none of them. */
  oneOf<W extends string>(row: number, field: SheetField, words: Readonly<Record<W, readonly string[]>>): W | null {
    const plain = plainWord(this.text(row, field))
    if (plain === '') return null
    const found = (Object.keys(words) as W[]).find((each) => words[each].includes(plain))
    return found ?? this.refuse(row, field, 'unknownWord', { known: Object.values<readonly string[]>(words).map(([each]) => each).join(', ') })
  }

  yes(row: number, field: SheetField): boolean {
    const plain = this.text(row, field).trim().toLowerCase()
    if (YES.includes(plain)) return true
    if (!NO.includes(plain)) this.refuse(row, field, 'unknownWord', { known: 'yes, no' })
    return false
  }

  /** A moment as our own tables write it; null where none stands there. */
  moment(row: number): string | null {
    const text = this.text(row, 'readAt')
    if (text === '') return null
    const read = moment.safeParse(text)
    return read.success ? read.data : this.refuse(row, 'readAt', 'badMoment')
  }

  corner(row: number): Corner | null {
    if (this.text(row, 'corner') === '') return this.refuse(row, 'corner', 'noCorner')
    return this.oneOf(row, 'corner', CORNER_WORDS)
  }

  done<T>(made: T): Taken<T> {
    if (this.rows.length > MOST_ROWS) this.refuse(MOST_ROWS, null, 'tooMany', { limit: MOST_ROWS })
    return { made, problems: this.problems, guesses: [...this.guesses] }
  }
}

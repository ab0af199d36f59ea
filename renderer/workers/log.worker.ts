/**
 * Reads acceleration logs away from the window, piece by piece: opens, proposes how to cut and map,
 * reads with progress, reduces and thins for drawing. The log itself stays here; the window gets what
 * it shows.
 */
import {
  envelope, LogReader, proposeLayout, proposeMapping, proposeRest, reduceLog, regularise, linesOf, fieldsOf,
  type BadRows, type Envelope, type LogLayout, type LogMapping, type ReduceOptions, type Reduction, type RegularLog,
  type SamplingReport, type Stretch,
} from '@core/track'
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex } from '@noble/hashes/utils.js'
import { serve, type Tools } from './serve'

/** Why a log cannot be used; the words stand in the window's catalogue. */
export type LogTrouble = 'notText' | 'noNumbers' | 'noAxis' | 'tooFewRows' | 'tooManyRows' | 'badFilter' | 'unreadable'

export interface LogRead {
  readonly rows: number
  readonly lineCount: number
  readonly blankLines: number
  readonly bad: BadRows
  readonly report: SamplingReport
  readonly lengthS: number
  readonly rest: Stretch | null
  readonly fingerprint: string
  readonly hasSpeed: boolean
  readonly tookMs: number
}

/** How far the log was read. */
export interface LogProgress {
  readonly share: number
  readonly rows: number
}

export interface LogReduced extends Omit<Reduction, 'raw' | 'filtered'> {
  readonly raw: Envelope
  readonly filtered: Envelope
}

/** A file looked at: how its text seems to be cut and what its columns seem to hold. */
export interface LogOpened {
  readonly layout: LogLayout
  readonly mapping: LogMapping | null
  readonly rows: readonly (readonly string[])[]
}

/** What comes of a question: what it asked for, or why it can't be had. */
export type LogTold<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: LogTrouble; readonly said: string }

/** The proposals are made from this much of the file, bytes. */
const HEAD_BYTES = 65_536
/** Hours of a fast logger; more would not fit into the memory of a small machine. */
const MOST_ROWS = 8_000_000
const PREVIEW_ROWS = 6

class Trouble extends Error {
  constructor(readonly why: LogTrouble, said = '') { super(said) }
}

let file: File | null = null
let head = ''
let log: RegularLog | null = null

/** UTF-8 unless a byte order mark says otherwise. */
function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le'
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be'
  return 'utf-8'
}

async function open(chosen: File): Promise<LogOpened> {
  file = chosen
  log = null
  const bytes = new Uint8Array(await chosen.slice(0, HEAD_BYTES).arrayBuffer())
  head = new TextDecoder(encodingOf(bytes)).decode(bytes)
  if (head.includes('\u0000')) throw new Trouble('notText')
  const layout = proposeLayout(head)
  if (!layout) throw new Trouble('noNumbers')
  return { layout, mapping: proposeMapping(head, layout), rows: preview(layout) }
}

const preview = (layout: LogLayout): string[][] => linesOf(head)
  .slice(layout.firstLine - 1, layout.firstLine - 1 + PREVIEW_ROWS)
  .map((line) => fieldsOf(line, layout.delimiter))

interface Columns {
  readonly layout: LogLayout
  readonly mapping: LogMapping
}

async function read({ layout, mapping }: Columns, tools: Tools<LogProgress>): Promise<LogRead> {
  if (!file) throw new Trouble('unreadable')
  if (Object.values(mapping.axes).every((column) => column === null)) throw new Trouble('noAxis')
  const start = performance.now()
  const reader = new LogReader(layout, mapping)
  const fingerprint = sha256.create()
  await eachPiece(file, async (bytes, text, share) => {
    fingerprint.update(bytes)
    reader.push(text)
    if (reader.count > MOST_ROWS) throw new Trouble('tooManyRows')
    await tools.progress({ share, rows: reader.count })
    tools.signal.throwIfAborted()
  })
  const table = reader.end()
  log = regularise(table)
  if (!log) throw new Trouble('tooFewRows', String(table.count))
  const last = log.segments.at(-1)!
  return {
    rows: table.count, lineCount: table.lineCount, blankLines: table.blankLines, bad: together(table.bad, log.bad),
    report: log.report, lengthS: last.startS + (last.to - last.from - 1) / log.rateHz, rest: proposeRest(log),
    fingerprint: bytesToHex(fingerprint.digest()), hasSpeed: log.speedMs !== null, tookMs: performance.now() - start,
  }
}

/** Reads the file piece by piece: its bytes, their text, and which share of the file is read then. */
async function eachPiece(
  from: File, take: (bytes: Uint8Array, text: string, share: number) => Promise<void>,
): Promise<void> {
  const source = from.stream().getReader()
  let decoder: TextDecoder | null = null
  let done = 0
  for (;;) {
    const piece = await source.read()
    if (piece.done) break
    decoder ??= new TextDecoder(encodingOf(piece.value))
    done += piece.value.byteLength
    await take(piece.value, decoder.decode(piece.value, { stream: true }), done / from.size)
  }
  await take(new Uint8Array(), decoder?.decode() ?? '', 1)
}

/** Rows that could not be read, and rows whose time did not fit, in one list by line. */
function together(one: BadRows, other: BadRows): BadRows {
  const byReason = { ...one.byReason }
  for (const [why, count] of Object.entries(other.byReason) as [keyof typeof byReason, number][]) {
    byReason[why] = (byReason[why] ?? 0) + count
  }
  return {
    total: one.total + other.total, byReason,
    listed: [...one.listed, ...other.listed].sort((a, b) => a.line - b.line),
  }
}

function reduce({ options, buckets }: { options: ReduceOptions; buckets: number }): LogReduced {
  if (!log) throw new Trouble('unreadable')
  const { raw, filtered, ...rest } = reduceLog(log, options)
  const last = log.segments.at(-1)!
  const whole = { fromS: 0, toS: last.startS + (last.to - last.from) / log.rateHz }
  return { ...rest, raw: envelope(log, raw, whole, buckets), filtered: envelope(log, filtered, whole, buckets) }
}

/** The same deed, telling what is wrong with the log as an answer. */
function telling<Q, P, T>(deed: (question: Q, tools: Tools<P>) => T) {
  return async (question: Q, tools: Tools<P>): Promise<LogTold<Awaited<T>>> => {
    try {
      return { ok: true, value: await deed(question, tools) }
    } catch (error) {
      tools.signal.throwIfAborted()
      const why = error instanceof Trouble ? error.why : error instanceof RangeError ? 'badFilter' : 'unreadable'
      return { ok: false, why, said: error instanceof Error ? error.message : String(error) }
    }
  }
}

const deeds = { open: telling(open), preview: telling(preview), read: telling(read), reduce: telling(reduce) }
export type LogDeeds = typeof deeds
serve(deeds)

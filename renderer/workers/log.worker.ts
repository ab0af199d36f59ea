/**
 * Reads acceleration logs away from the window, piece by piece: opens, proposes how to cut and map,
 * reads with progress, reduces and thins for drawing. The log itself stays here; the window gets what
 * it shows.
 */
import {
  envelope, isMapped, LogReader, proposeLayout, proposeMapping, proposeRest, reduceLog, regularise, linesOf, fieldsOf,
  type BadRows, type Envelope, type LogGuess, type LogLayout, type LogMapping, type ReduceOptions, type Reduction,
  type RegularLog, type RestProposal, type SamplingReport,
} from '@core/track'
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex } from '@noble/hashes/utils.js'
import { encodingOf, isZip, logsIn, unpacked, type LogEncoding } from './logFile'
import { serve, type Tools } from './serve'

/** Why a log cannot be used; the words stand in the window's catalogue. */
export type LogTrouble =
  | 'notText' | 'noNumbers' | 'noAxis' | 'notMapped' | 'emptyZip' | 'tooFewRows' | 'tooManyRows' | 'badFilter'
  | 'unreadable'

export interface LogRead {
  readonly rows: number
  readonly lineCount: number
  readonly blankLines: number
  readonly bad: BadRows
  readonly report: SamplingReport
  readonly lengthS: number
  readonly rest: RestProposal
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
  readonly mapping: LogMapping
  /** What of it no name told. */
  readonly guesses: readonly LogGuess[]
  readonly rows: readonly (readonly string[])[]
  readonly encoding: LogEncoding
  /** The logs of a zip, the likeliest first, and the one that is open; empty for a plain file. */
  readonly entries: readonly string[]
  readonly entry: string | null
}

/** A file to open; of a zip the log to take, the likeliest where null. */
export interface LogChosen {
  readonly file: File
  readonly entry: string | null
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

let file: Blob | null = null
let encoding: LogEncoding = 'utf-8'
let head = ''
let log: RegularLog | null = null

const bytesOf = async (of: Blob): Promise<Uint8Array> => new Uint8Array(await of.arrayBuffer())

async function open({ file: chosen, entry: wished }: LogChosen): Promise<LogOpened> {
  log = null
  const zip = isZip(await bytesOf(chosen.slice(0, 4))) ? await bytesOf(chosen) : null
  const entries = zip ? logsIn(zip) : []
  const entry = zip ? wished ?? entries[0] : null
  if (entry === undefined) throw new Trouble('emptyZip')
  file = zip && entry !== null ? new Blob([unpacked(zip, entry)]) : chosen
  const bytes = await bytesOf(file.slice(0, HEAD_BYTES))
  encoding = encodingOf(bytes)
  head = new TextDecoder(encoding).decode(bytes)
  if (head.includes('\u0000')) throw new Trouble('notText')
  const layout = proposeLayout(head)
  if (!layout) throw new Trouble('noNumbers')
  return { layout, ...proposeMapping(head, layout), rows: preview(layout), encoding, entries, entry }
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
  if (!isMapped(mapping)) throw new Trouble('notMapped')
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
  from: Blob, take: (bytes: Uint8Array, text: string, share: number) => Promise<void>,
): Promise<void> {
  const source = from.stream().getReader()
  const decoder = new TextDecoder(encoding)
  let done = 0
  for (;;) {
    const piece = await source.read()
    if (piece.done) break
    done += piece.value.byteLength
    await take(piece.value, decoder.decode(piece.value, { stream: true }), done / from.size)
  }
  await take(new Uint8Array(), decoder.decode(), 1)
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

/**
 * Reads acceleration logs away from the window, piece by piece: opens, proposes how to cut and map,
 * reads with progress, reduces and thins for drawing. The log itself stays here; the window gets what
 * it shows. To stop it, end the worker.
 */
import {
  envelope, LogReader, proposeLayout, proposeMapping, proposeRest, reduceLog, regularise, linesOf, fieldsOf,
  type BadRows, type Envelope, type LogLayout, type LogMapping, type ReduceOptions, type Reduction, type RegularLog,
  type SamplingReport, type Stretch,
} from '@core/track'
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex } from '@noble/hashes/utils.js'

/** What the window asks. */
export type LogAsk =
  | { readonly kind: 'open'; readonly ticket: number; readonly file: File }
  | { readonly kind: 'preview'; readonly ticket: number; readonly layout: LogLayout }
  | { readonly kind: 'read'; readonly ticket: number; readonly layout: LogLayout; readonly mapping: LogMapping }
  | { readonly kind: 'reduce'; readonly ticket: number; readonly options: ReduceOptions; readonly buckets: number }

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

export interface LogReduced extends Omit<Reduction, 'raw' | 'filtered'> {
  readonly raw: Envelope
  readonly filtered: Envelope
}

/** What the worker tells. */
export type LogTell = { readonly ticket: number } & (
  | { readonly kind: 'opened'; readonly layout: LogLayout; readonly mapping: LogMapping | null; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: 'preview'; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: 'progress'; readonly share: number; readonly rows: number }
  | { readonly kind: 'read'; readonly read: LogRead }
  | { readonly kind: 'reduced'; readonly reduced: LogReduced }
  | { readonly kind: 'failed'; readonly why: LogTrouble; readonly said: string }
)

/** The proposals are made from this much of the file, bytes. */
const HEAD_BYTES = 65_536
/** Hours of a fast logger; more would not fit into the memory of a small machine. */
const MOST_ROWS = 8_000_000
const PREVIEW_ROWS = 6
const PROGRESS_MS = 80

class Trouble extends Error {
  constructor(readonly why: LogTrouble, said = '') { super(said) }
}

let file: File | null = null
let head = ''
let log: RegularLog | null = null

const tell = (message: LogTell): void => self.postMessage(message)

/** UTF-8 unless a byte order mark says otherwise. */
function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le'
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be'
  return 'utf-8'
}

async function open(ticket: number, chosen: File): Promise<void> {
  file = chosen
  log = null
  const bytes = new Uint8Array(await chosen.slice(0, HEAD_BYTES).arrayBuffer())
  head = new TextDecoder(encodingOf(bytes)).decode(bytes)
  if (head.includes('\u0000')) throw new Trouble('notText')
  const layout = proposeLayout(head)
  if (!layout) throw new Trouble('noNumbers')
  tell({ ticket, kind: 'opened', layout, mapping: proposeMapping(head, layout), rows: previewOf(layout) })
}

const previewOf = (layout: LogLayout): string[][] => linesOf(head)
  .slice(layout.firstLine - 1, layout.firstLine - 1 + PREVIEW_ROWS)
  .map((line) => fieldsOf(line, layout.delimiter))

async function read(ticket: number, layout: LogLayout, mapping: LogMapping): Promise<void> {
  if (!file) throw new Trouble('unreadable')
  if (Object.values(mapping.axes).every((column) => column === null)) throw new Trouble('noAxis')
  const start = performance.now()
  const reader = new LogReader(layout, mapping)
  const fingerprint = sha256.create()
  await eachPiece(file, fingerprint, (text, share) => {
    reader.push(text)
    if (reader.count > MOST_ROWS) throw new Trouble('tooManyRows')
    return () => tell({ ticket, kind: 'progress', share, rows: reader.count })
  })
  const table = reader.end()
  log = regularise(table)
  if (!log) throw new Trouble('tooFewRows', String(table.count))
  const last = log.segments.at(-1)!
  tell({
    ticket, kind: 'read', read: {
      rows: table.count, lineCount: table.lineCount, blankLines: table.blankLines, bad: together(table.bad, log.bad),
      report: log.report, lengthS: last.startS + (last.to - last.from - 1) / log.rateHz, rest: proposeRest(log),
      fingerprint: bytesToHex(fingerprint.digest()), hasSpeed: log.speedMs !== null, tookMs: performance.now() - start,
    },
  })
}

/** Reads the file piece by piece; `take` gives what to tell, which is told now and then. */
async function eachPiece(
  from: File, fingerprint: { update: (bytes: Uint8Array) => unknown },
  take: (text: string, share: number) => () => void,
): Promise<void> {
  const source = from.stream().getReader()
  let decoder: TextDecoder | null = null
  let done = 0
  let toldAt = 0
  for (;;) {
    const piece = await source.read()
    if (piece.done) break
    decoder ??= new TextDecoder(encodingOf(piece.value))
    fingerprint.update(piece.value)
    done += piece.value.byteLength
    const report = take(decoder.decode(piece.value, { stream: true }), done / from.size)
    if (performance.now() - toldAt < PROGRESS_MS) continue
    toldAt = performance.now()
    report()
  }
  take(decoder?.decode() ?? '', 1)
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

function reduce(ticket: number, options: ReduceOptions, buckets: number): void {
  if (!log) throw new Trouble('unreadable')
  const { raw, filtered, ...rest } = reduceLog(log, options)
  const last = log.segments.at(-1)!
  const whole = { fromS: 0, toS: last.startS + (last.to - last.from) / log.rateHz }
  tell({
    ticket, kind: 'reduced',
    reduced: { ...rest, raw: envelope(log, raw, whole, buckets), filtered: envelope(log, filtered, whole, buckets) },
  })
}

async function answer(ask: LogAsk): Promise<void> {
  switch (ask.kind) {
    case 'open': return open(ask.ticket, ask.file)
    case 'preview': return tell({ ticket: ask.ticket, kind: 'preview', rows: previewOf(ask.layout) })
    case 'read': return read(ask.ticket, ask.layout, ask.mapping)
    case 'reduce': return reduce(ask.ticket, ask.options, ask.buckets)
  }
}

self.onmessage = (event: MessageEvent<LogAsk>) => {
  answer(event.data).catch((error: unknown) => {
    const why = error instanceof Trouble ? error.why : error instanceof RangeError ? 'badFilter' : 'unreadable'
    tell({ ticket: event.data.ticket, kind: 'failed', why, said: error instanceof Error ? error.message : String(error) })
  })
}

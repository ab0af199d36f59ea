/**
 * From rows with times to regularly spaced samples: repeated and backward times taken out and
 * listed, gaps kept as breaks, jitter seen, and samples interpolated only where the grid needs it.
 */
import { spreadBunches } from './bunched'
import { BadRowList } from './reader'
import {
  MOST_LISTED, SENSOR_AXES, type BadRows, type Gap, type LogTable, type RegularLog, type SamplingReport, type Segment,
} from './types'

/** An interval this many medians long is a gap. */
const GAP_MEDIANS = 3
/** A clock that falls back by more than this many medians was started again. */
const RESTART_MEDIANS = 10
/** Samples farther than this share of an interval from the grid are interpolated. */
const OFF_GRID = 0.25
const DAY_S = 86_400

type Span = readonly [from: number, to: number]

/** Rows with rising times: their indices, and the times counted from the first. */
interface Ordered {
  readonly kept: Uint32Array
  readonly timeS: Float64Array
  readonly restarts: SamplingReport['restarts']
  readonly bad: BadRows
}

/** Null where fewer than ten rows with rising times are left: there is no rate to speak of. */
export function regularise(read: LogTable): RegularLog | null {
  const { timeS, moved } = spreadBunches(read.timeS)
  const table = { ...read, timeS }
  const median = medianInterval(table.timeS)
  if (table.count < 10 || !(median > 0)) return null
  const ordered = order(table, median)
  const { breaks, gaps } = findGaps(ordered, table, median)
  const spans = spansOf(ordered.timeS, breaks)
  const { intervals, missing } = intervalsOf(ordered.timeS, spans, median)
  const duration = spans.reduce((sum, [from, to]) => sum + (ordered.timeS[to - 1]! - ordered.timeS[from]!), 0)
  if (intervals < 1 || !(duration > 0)) return null
  const rateHz = intervals / duration
  const even = spans.every(([from, to]) => liesOnGrid(ordered.timeS, from, to, rateHz))
  const report: SamplingReport = {
    rateHz, jitter: jitterOf(ordered.timeS, spans, median), interpolated: !even, filled: even ? missing : 0,
    spread: moved,
    gapCount: gaps.length, gaps: gaps.slice(0, MOST_LISTED),
    restartCount: ordered.restarts.length, restarts: ordered.restarts.slice(0, MOST_LISTED),
  }
  return { ...gridded(table, ordered, spans, rateHz, even && missing === 0), rateHz, report, bad: ordered.bad }
}

/** Median of the rising steps. */
function medianInterval(timeS: Float64Array): number {
  const steps = new Float64Array(Math.max(0, timeS.length - 1))
  let count = 0
  for (let i = 1; i < timeS.length; i++) {
    const step = timeS[i]! - timeS[i - 1]!
    if (step > 0) steps[count++] = step
  }
  if (count === 0) return 0
  return steps.subarray(0, count).sort()[count >> 1]!
}

function order(table: LogTable, median: number): Ordered {
  const { timeS, line, count } = table
  const kept = new Uint32Array(count)
  const times = new Float64Array(count)
  const restarts: { line: number; backS: number }[] = []
  const bad = new BadRowList()
  const start = timeS[0] ?? 0
  let shift = -start
  let n = 0
  for (let i = 0; i < count; i++) {
    let at = timeS[i]! + shift
    const last = n > 0 ? times[n - 1]! : -Infinity
    if (at <= last) {
      const back = last - at
      if (back > DAY_S - 3600 && back < DAY_S + 3600) {
        shift += DAY_S
      } else if (back > RESTART_MEDIANS * median) {
        restarts.push({ line: line[i]!, backS: back })
        shift += back + median
      } else {
        bad.add(line[i]!, `${Number(timeS[i]!.toPrecision(12))} s`, back === 0 ? 'timeRepeated' : 'timeBackwards', null)
        continue
      }
      at = timeS[i]! + shift
    }
    kept[n] = i
    times[n++] = at
  }
  return { kept: kept.subarray(0, n), timeS: times.subarray(0, n), restarts, bad: bad.result() }
}

function findGaps({ timeS, kept, restarts }: Ordered, { line }: LogTable, median: number) {
  const restarted = new Set(restarts.map((each) => each.line))
  const breaks: number[] = []
  const gaps: Gap[] = []
  for (let i = 1; i < timeS.length; i++) {
    const step = timeS[i]! - timeS[i - 1]!
    if (step > GAP_MEDIANS * median) {
      gaps.push({
        line: line[kept[i - 1]!]!, atS: timeS[i - 1]!, lengthS: step, missing: Math.round(step / median) - 1,
      })
      breaks.push(i)
    } else if (restarted.has(line[kept[i]!]!)) breaks.push(i)
  }
  return { breaks, gaps }
}

/** Farther than this from a whole number of medians a step tells nothing of rows that are missing. */
const OFF_WHOLE = 0.2
/** Share of such steps beyond which the clock is taken as unsteady, and missing rows are not counted. */
const MOST_UNSTEADY = 0.01

/**
 * Intervals of the logger's clock in all spans: a step of two medians is one row that is missing, which
 * must not slow the rate of the others. An unsteady clock has as many intervals as steps.
 */
function intervalsOf(
  timeS: Float64Array, spans: readonly Span[], median: number,
): { intervals: number; missing: number } {
  let [steps, whole, unsteady] = [0, 0, 0]
  for (const [from, to] of spans) {
    for (let i = from + 1; i < to; i++) {
      const medians = (timeS[i]! - timeS[i - 1]!) / median
      const rounded = Math.max(1, Math.round(medians))
      steps++
      whole += rounded
      if (Math.abs(medians - rounded) > OFF_WHOLE) unsteady++
    }
  }
  if (unsteady > MOST_UNSTEADY * steps) return { intervals: steps, missing: 0 }
  return { intervals: whole, missing: whole - steps }
}

/** Ranges between breaks that hold two samples or more. */
const spansOf = (timeS: Float64Array, breaks: readonly number[]): Span[] =>
  [0, ...breaks].map((from, index) => [from, breaks[index] ?? timeS.length] as const)
    .filter(([from, to]) => to - from > 1)

/** Samples near the grid's points; points without a sample may lie between. */
function liesOnGrid(timeS: Float64Array, from: number, to: number, rateHz: number): boolean {
  for (let i = from; i < to; i++) {
    const at = (timeS[i]! - timeS[from]!) * rateHz
    if (Math.abs(at - Math.round(at)) > OFF_GRID) return false
  }
  return true
}

function jitterOf(timeS: Float64Array, spans: readonly Span[], median: number): number {
  let square = 0
  let count = 0
  for (const [from, to] of spans) {
    for (let i = from + 1; i < to; i++) {
      square += (timeS[i]! - timeS[i - 1]! - median) ** 2
      count++
    }
  }
  return count === 0 ? 0 : Math.sqrt(square / count) / median
}

function gridded(
  table: LogTable, ordered: Ordered, spans: readonly Span[], rateHz: number, onGrid: boolean,
): Pick<RegularLog, 'segments' | 'axes' | 'speedMs'> {
  const segments: Segment[] = []
  let total = 0
  for (const [from, to] of spans) {
    const startS = ordered.timeS[from]!
    const count = onGrid ? to - from : Math.floor((ordered.timeS[to - 1]! - startS) * rateHz + 1e-9) + 1
    segments.push({ from: total, to: total + count, startS })
    total += count
  }
  const column = (values: Float64Array): Float64Array => {
    const out = new Float64Array(total)
    spans.forEach(([from, to], index) => {
      const segment = segments[index]!
      if (onGrid) for (let i = from; i < to; i++) out[segment.from + i - from] = values[ordered.kept[i]!]!
      else interpolate(ordered, values, from, to, rateHz, out.subarray(segment.from, segment.to))
    })
    return out
  }
  return {
    segments,
    axes: Object.fromEntries(SENSOR_AXES.flatMap((axis) => {
      const values = table.axes[axis]
      return values ? [[axis, column(values)]] : []
    })),
    speedMs: table.speedMs && column(table.speedMs),
  }
}

/** Linear between neighbours. */
function interpolate(
  { timeS, kept }: Ordered, values: Float64Array, from: number, to: number, rateHz: number, out: Float64Array,
): void {
  let right = from + 1
  for (let i = 0; i < out.length; i++) {
    const at = timeS[from]! + i / rateHz
    while (right < to - 1 && timeS[right]! < at) right++
    const [t0, t1] = [timeS[right - 1]!, timeS[right]!]
    const [v0, v1] = [values[kept[right - 1]!]!, values[kept[right]!]!]
    out[i] = v0 + ((v1 - v0) * (at - t0)) / (t1 - t0)
  }
}

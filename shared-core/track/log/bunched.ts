/**
 * Times that come in bunches: a logger that stamps whole seconds, or a clock too coarse for its rate. The
 * rows of one stamp are spread evenly up to the next one. Where only a row now and then has the time of
 * the one before, nothing is done here: that row is refused and counted.
 */

/** Share of rows with the time of the row before from which the clock counts as coarse. */
const COARSE = 0.3
/** A bunch this much smaller or larger than the usual one is cut off, or has a gap in it. */
const ODD_BUNCH = 0.25

/** The times, spread where they are bunched, and how many rows were moved. */
export function spreadBunches(timeS: Float64Array): { timeS: Float64Array; moved: number } {
  const starts: number[] = [0]
  for (let i = 1; i < timeS.length; i++) if (timeS[i] !== timeS[i - 1]) starts.push(i)
  if (timeS.length < 3 || starts.length < 3 || 1 - starts.length / timeS.length < COARSE) return { timeS, moved: 0 }
  const counts = starts.map((start, at) => (starts[at + 1] ?? timeS.length) - start)
  // The first and the last bunch may be cut off.
  const inner = counts.slice(1, -1).sort((a, b) => a - b)
  const usual = inner[inner.length >> 1] ?? counts[0]!
  const steps = starts.slice(1).map((start, at) => timeS[start]! - timeS[starts[at]!]!).sort((a, b) => a - b)
  const step = steps[steps.length >> 1]!
  const out = Float64Array.from(timeS)
  starts.forEach((start, at) => {
    const count = counts[at]!
    const isWhole = Math.abs(count - usual) <= ODD_BUNCH * usual && at < starts.length - 1 && at > 0
    const each = isWhole ? Math.min(step, timeS[start + count]! - timeS[start]!) / count : step / Math.max(usual, count)
    // A cut-off first bunch ends where the second begins.
    const from = at === 0 ? Math.max(timeS[start]!, timeS[start + count]! - count * each) : timeS[start]!
    for (let i = 0; i < count; i++) out[start + i] = from + i * each
  })
  return { timeS: out, moved: timeS.length - starts.length }
}

/** The mean of a stretch of a trace, with an uncertainty that knows neighbouring frames are alike. */

export interface TimedValue { readonly timeS: number; readonly value: number }

export interface WindowMean {
  readonly mean: number
  /** Standard uncertainty of the mean. */
  readonly u: number
  /** How many independent values the stretch is worth, 1 or more. */
  readonly effectiveCount: number
  readonly dof: number
  readonly count: number
  /** Change of the value per second by least squares, and its own u: a window on the move shows here. */
  readonly slope: number
  readonly slopeU: number
}

/**
 * Time average of values at true times (each counts by the time it stands for, so an uneven frame
 * rate does not pull the mean), with the variance of the mean of an autocorrelated series:
 * u^2 = s^2 sum_ij w_i w_j r(|i - j|). The autocorrelation r is summed up to the last pair of lags
 * whose sum is positive (Geyer, Statistical Science 7, 1992, initial positive sequence), and s^2 is
 * corrected for having been taken about a mean of that many effective values (Bayley and Hammersley,
 * J. Roy. Stat. Soc. Suppl. 8, 1946).
 *
 * @param about `mean`: any change within the stretch counts as scatter. `line`: a steady change does
 *   not, for windows of a bracket, where the zero may creep and only the middle of each counts
 * @returns null of fewer than five values: a scatter cannot be told
 */
export function windowMean(values: readonly TimedValue[], about: 'mean' | 'line' = 'mean'): WindowMean | null {
  const n = values.length
  if (n < 5) return null
  const weights = timeWeights(values)
  const mean = values.reduce((sum, { value }, i) => sum + weights[i]! * value, 0)
  const line = slopeOf(values)
  const middle = values.reduce((sum, { timeS }, i) => sum + weights[i]! * timeS, 0)
  const lean = about === 'line' ? line.slope : 0
  const off = values.map(({ timeS, value }) => value - mean - lean * (timeS - middle))
  const square = off.reduce((sum, each, i) => sum + weights[i]! * each * each, 0)
  // Rounding alone: the values are all the same.
  if (square <= (1e-12 * mean) ** 2) {
    return { mean, u: 0, effectiveCount: n, dof: n - 1, count: n, slope: line.slope, slopeU: 0 }
  }
  const correlation = autocorrelation(off)
  let sum = 0
  for (let i = 0; i < n; i++) {
    sum += weights[i]! * weights[i]!
    for (let lag = 1; lag < correlation.length && i + lag < n; lag++) {
      sum += 2 * weights[i]! * weights[i + lag]! * correlation[lag]!
    }
  }
  const effectiveCount = Math.min(n, Math.max(2, 1 / sum))
  const spent = about === 'line' ? 2 : 1
  const variance = square / Math.max(0.2, 1 - spent / effectiveCount)
  const widening = n / effectiveCount
  return {
    mean, u: Math.sqrt(variance / effectiveCount), effectiveCount, dof: Math.max(1, effectiveCount - spent), count: n,
    slope: line.slope, slopeU: line.u * Math.sqrt(widening),
  }
}

/** The share of time each value stands for: halfway to its neighbours. */
function timeWeights(values: readonly TimedValue[]): number[] {
  const n = values.length
  const raw = values.map((_, i) => {
    const before = values[Math.max(0, i - 1)]!.timeS
    const after = values[Math.min(n - 1, i + 1)]!.timeS
    return i === 0 || i === n - 1 ? after - before : (after - before) / 2
  })
  const total = raw.reduce((sum, each) => sum + each, 0)
  return total > 0 ? raw.map((each) => each / total) : raw.map(() => 1 / n)
}

/** Autocorrelation by lag, cut by the initial positive sequence. */
function autocorrelation(off: readonly number[]): number[] {
  const n = off.length
  const at = (lag: number): number => {
    let sum = 0
    for (let i = 0; i + lag < n; i++) sum += off[i]! * off[i + lag]!
    return sum / n
  }
  const zero = at(0)
  const found = [1]
  const most = Math.floor(n / 2)
  for (let lag = 1; lag + 1 <= most; lag += 2) {
    const [a, b] = [at(lag) / zero, at(lag + 1) / zero]
    // Pairs (0, 1), (2, 3), ..: the sum of a pair cannot be negative but by chance.
    if (lag === 1 && a <= 0) break
    if (lag > 1 && a + b <= 0) break
    found.push(Math.max(0, a), Math.max(0, b))
  }
  return found
}

function slopeOf(values: readonly TimedValue[]): { slope: number; u: number } {
  const n = values.length
  const mt = values.reduce((sum, { timeS }) => sum + timeS, 0) / n
  const mv = values.reduce((sum, { value }) => sum + value, 0) / n
  let tt = 0
  let tv = 0
  for (const { timeS, value } of values) {
    tt += (timeS - mt) ** 2
    tv += (timeS - mt) * (value - mv)
  }
  if (tt === 0) return { slope: 0, u: Infinity }
  const slope = tv / tt
  const left = values.reduce((sum, { timeS, value }) => sum + (value - mv - slope * (timeS - mt)) ** 2, 0)
  return { slope, u: Math.sqrt(left / (n - 2) / tt) }
}

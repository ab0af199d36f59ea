/**
 * Uncertainty of the mean of a series whose samples hang together: u^2 = s^2/n (1 + 2 sum r_k)
 * (N. F. Zhang, Metrologia 43 (2006) S276). The sum is cut by the initial positive sequence of
 * C. J. Geyer, Stat. Sci. 7 (1992) 473: as soon as a pair of neighbouring autocorrelations is no
 * longer above zero, what follows is noise.
 */
export interface SeriesMean {
  readonly mean: number
  readonly u: number
  /** Number of independent values that would tell as much, 1 to n. */
  readonly effectiveCount: number
  /** Effective count less 1, at least 1. */
  readonly dof: number
}

/** Beyond this many samples, means of equal blocks stand for them: the mean's variance is the same, the work is not. */
const MOST_SAMPLES = 4000

/** Mean of `values[from]` to `values[to - 1]`; at least two samples. */
export function seriesMean(values: Float64Array, from = 0, to = values.length): SeriesMean {
  const n = to - from
  if (n > MOST_SAMPLES) return blocked(values, from, n)
  let sum = 0
  for (let i = from; i < to; i++) sum += values[i]!
  const mean = sum / n
  const covariance = (lag: number): number => {
    let total = 0
    for (let i = from; i < to - lag; i++) total += (values[i]! - mean) * (values[i + lag]! - mean)
    return total / n
  }
  const variance = covariance(0)
  if (variance === 0) return { mean, u: 0, effectiveCount: n, dof: Math.max(1, n - 1) }
  let time = 1
  for (let lag = 1; lag < n - 1; lag += 2) {
    const pair = (covariance(lag) + covariance(lag + 1)) / variance
    // The first lag counts alone where the pair's second member spoils it.
    if (pair <= 0) {
      time += lag === 1 ? 2 * Math.max(0, covariance(1) / variance) : 0
      break
    }
    time += 2 * pair
  }
  const effectiveCount = Math.min(n, Math.max(1, n / time))
  const u = Math.sqrt((variance * n) / Math.max(1, n - time) / effectiveCount)
  return { mean, u, effectiveCount, dof: Math.max(1, effectiveCount - 1) }
}

/** The same by blocks; samples left over at the end take no part. */
function blocked(values: Float64Array, from: number, n: number): SeriesMean {
  const size = Math.ceil(n / (MOST_SAMPLES / 2))
  const blocks = new Float64Array(Math.floor(n / size))
  for (let block = 0; block < blocks.length; block++) {
    let sum = 0
    for (let i = from + block * size; i < from + (block + 1) * size; i++) sum += values[i]!
    blocks[block] = sum / size
  }
  return seriesMean(blocks)
}

/**
 * Order statistics by selection: only the two tails that hold the ends of an interval are ever
 * sorted. Selection after R. W. Floyd and R. L. Rivest, Commun. ACM 18 (1975) 165 and 173.
 */

/** Rearranges values[left..right] so that values[k] is where a full sort would put it, smaller before, larger after. */
export function selectNth(values: Float64Array, k: number, left = 0, right = values.length - 1): void {
  while (right > left) {
    if (right - left > 600) {
      const n = right - left + 1
      const i = k - left + 1
      const z = Math.log(n)
      const s = 0.5 * Math.exp((2 * z) / 3)
      const sd = 0.5 * Math.sqrt((z * s * (n - s)) / n) * (i < n / 2 ? -1 : 1)
      selectNth(
        values, k, Math.max(left, Math.floor(k - (i * s) / n + sd)),
        Math.min(right, Math.floor(k + ((n - i) * s) / n + sd)),
      )
    }
    const pivot = values[k]!
    let i = left
    let j = right
    swap(values, left, k)
    if (values[right]! > pivot) swap(values, right, left)
    while (i < j) {
      swap(values, i, j)
      i++
      j--
      while (values[i]! < pivot) i++
      while (values[j]! > pivot) j--
    }
    if (values[left] === pivot) swap(values, left, j)
    else swap(values, ++j, right)
    if (j <= k) left = j + 1
    if (k <= j) right = j - 1
  }
}

function swap(values: Float64Array, i: number, j: number): void {
  const held = values[i]!
  values[i] = values[j]!
  values[j] = held
}

export interface Ends { readonly low: number; readonly high: number }

/**
 * Ranks of the probabilistically symmetric interval among n ordered values (JCGM 101:2008, 7.7.2),
 * counted from 0: the interval spans `span` ranks from `first`.
 */
function ranks(n: number, probability: number): { span: number; first: number } {
  const span = Math.min(n - 1, Math.floor(probability * n + 0.5))
  return { span, first: Math.max(0, Math.floor((n - span + 1) / 2) - 1) }
}

/** Ends of the probabilistically symmetric interval. Rearranges the values. */
export function symmetricEnds(values: Float64Array, probability: number): Ends {
  const { span, first } = ranks(values.length, probability)
  const last = first + span
  selectNth(values, last)
  const high = values[last]!
  if (last > 0) selectNth(values, first, 0, last - 1)
  return { low: values[first]!, high }
}

/** The lower median of one or more values. Rearranges them. */
export function medianOf(values: Float64Array): number {
  const middle = (values.length - 1) >> 1
  selectNth(values, middle)
  return values[middle]!
}

/**
 * Ends of the symmetric and of the shortest interval (JCGM 101:2008, 7.7.2 and 5.3.4). Rearranges
 * the values: both tails end up sorted.
 */
export function bothEnds(values: Float64Array, probability: number): { symmetric: Ends; shortest: Ends } {
  const n = values.length
  const { span, first } = ranks(n, probability)
  const spare = n - 1 - span
  if (span > spare) {
    selectNth(values, span)
    selectNth(values, spare, 0, span - 1)
    values.subarray(span).sort()
    values.subarray(0, spare + 1).sort()
  } else values.sort()
  let best = 0
  for (let r = 1; r <= spare; r++) {
    if (values[r + span]! - values[r]! < values[best + span]! - values[best]!) best = r
  }
  return {
    symmetric: { low: values[first]!, high: values[first + span]! },
    shortest: { low: values[best]!, high: values[best + span]! },
  }
}

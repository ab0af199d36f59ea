/**
 * Forward and backward filtering: no delay, the magnitude squared (half the amplitude, -6 dB, at the
 * cutoff). Ends are extended by odd reflection and each pass starts in the steady state of its first
 * sample, as scipy.signal.sosfiltfilt does by default (F. Gustafsson, IEEE Trans. Signal Process. 44
 * (1996) 988, describes the matter).
 */
import type { Section } from './butterworth'

/** Samples added at each end: three filter lengths. A signal must be longer than this. */
export function paddingOf(sections: readonly Section[]): number {
  const firstOrder = sections.filter(({ a2, b2 }) => a2 === 0 && b2 === 0).length
  return 3 * (2 * sections.length + 1 - firstOrder)
}

/**
 * The filtered signal, as long as the input.
 *
 * @param signal longer than `paddingOf(sections)`
 * @throws RangeError where it is shorter
 */
export function zeroPhase(sections: readonly Section[], signal: Float64Array): Float64Array {
  const pad = paddingOf(sections)
  const n = signal.length
  if (n <= pad) throw new RangeError(`${n} samples: more than ${pad} are needed for this filter`)
  const extended = new Float64Array(n + 2 * pad)
  extended.set(signal, pad)
  for (let i = 0; i < pad; i++) {
    extended[i] = 2 * signal[0]! - signal[pad - i]!
    extended[n + pad + i] = 2 * signal[n - 1]! - signal[n - 2 - i]!
  }
  pass(sections, extended)
  extended.reverse()
  pass(sections, extended)
  extended.reverse()
  return extended.slice(pad, n + pad)
}

/** One pass in place, each section starting in the steady state of the first sample. */
function pass(sections: readonly Section[], values: Float64Array): void {
  let level = values[0]!
  for (const { b0, b1, b2, a1, a2 } of sections) {
    const gain = (b0 + b1 + b2) / (1 + a1 + a2)
    let z1 = (gain - b0) * level
    let z2 = (b2 - a2 * gain) * level
    for (let i = 0; i < values.length; i++) {
      const x = values[i]!
      const y = b0 * x + z1
      z1 = b1 * x - a1 * y + z2
      z2 = b2 * x - a2 * y
      values[i] = y
    }
    level *= gain
  }
}

/**
 * Butterworth low-pass as second-order sections: analogue poles on the unit circle's left half,
 * cutoff pre-warped, bilinear transform (A. V. Oppenheim and R. W. Schafer, Discrete-Time Signal
 * Processing, 3rd ed., 7.2). One pass has half the power (-3 dB) at the cutoff.
 */

/** One section, y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''; a first-order one has b2 = a2 = 0. */
export interface Section {
  readonly b0: number
  readonly b1: number
  readonly b2: number
  readonly a1: number
  readonly a2: number
}

/** Highest order designed: beyond it a log gains nothing. */
export const HIGHEST_ORDER = 8

/**
 * Sections of a low-pass.
 *
 * @param order 1 to 8
 * @param cutoffHz above zero, below half the rate
 * @throws RangeError outside these ranges
 */
export function butterworth(order: number, cutoffHz: number, rateHz: number): Section[] {
  if (!Number.isInteger(order) || order < 1 || order > HIGHEST_ORDER) {
    throw new RangeError(`order ${order}: a whole number from 1 to ${HIGHEST_ORDER} is needed`)
  }
  if (!(cutoffHz > 0) || !(cutoffHz < rateHz / 2)) {
    throw new RangeError(`cutoff ${cutoffHz} Hz: above zero and below half the rate (${rateHz / 2} Hz) is needed`)
  }
  const k = Math.tan((Math.PI * cutoffHz) / rateHz)
  const sections: Section[] = []
  if (order % 2 === 1) sections.push({ b0: k / (1 + k), b1: k / (1 + k), b2: 0, a1: (k - 1) / (k + 1), a2: 0 })
  // The pair at angle phi from the negative real axis is s^2 + 2 cos(phi) s + 1; sharpest last.
  for (let pair = 1; pair <= order / 2; pair++) {
    const cosine = Math.cos((Math.PI * (order % 2 === 1 ? 2 * pair : 2 * pair - 1)) / (2 * order))
    const norm = 1 + 2 * cosine * k + k * k
    sections.push({
      b0: (k * k) / norm, b1: (2 * k * k) / norm, b2: (k * k) / norm,
      a1: (2 * (k * k - 1)) / norm, a2: (1 - 2 * cosine * k + k * k) / norm,
    })
  }
  return sections
}

/** Magnitude of one pass through the sections at a frequency, 0 to half the rate. */
export function magnitude(sections: readonly Section[], frequencyHz: number, rateHz: number): number {
  const w = (2 * Math.PI * frequencyHz) / rateHz
  const size = (c0: number, c1: number, c2: number) =>
    Math.hypot(c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w), c1 * Math.sin(w) + c2 * Math.sin(2 * w))
  return sections.reduce((product, { b0, b1, b2, a1, a2 }) => product * (size(b0, b1, b2) / size(1, a1, a2)), 1)
}

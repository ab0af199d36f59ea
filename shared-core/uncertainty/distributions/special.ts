/**
 * Incomplete gamma and beta functions, in double accuracy. The prefactors use Loader's saddle-point
 * form, which loses no digits for large degrees of freedom (C. Loader, Fast and Accurate Computation
 * of Binomial Probabilities, 2000). Series and continued fractions: NIST DLMF 8.11.4 and 8.9.2.
 */

const TINY = 1e-300
const EPSILON = 1e-16
const LN_2PI = Math.log(2 * Math.PI)

/** ln Gamma(x) - Stirling's formula (x - 1/2) ln x - x + ln(2 pi)/2, for x > 0. DLMF 5.11.1. */
export function stirlingError(x: number): number {
  if (x < 16) {
    // Step up to where the series is exact to the last digit, by ln Gamma(x + 1) = ln Gamma(x) + ln x.
    let shift = 0
    let at = x
    while (at < 16) {
      shift += (at + 0.5) * Math.log1p(1 / at) - 1
      at += 1
    }
    return stirlingError(at) + shift
  }
  const r = 1 / (x * x)
  return (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r * (1 / 1188 - r * (691 / 360360 - r / 156)))))) / x
}

/** x ln(x/np) + np - x, without cancellation where x is near np. `difference`, x - np, may be known better. */
export function deviance(x: number, np: number, difference = x - np): number {
  if (Math.abs(difference) < 0.1 * (x + np)) {
    const v = difference / (x + np)
    let sum = difference * v
    let term = 2 * x * v
    const square = v * v
    for (let j = 1; j < 1000; j++) {
      term *= square
      const next = sum + term / (2 * j + 1)
      if (next === sum) return next
      sum = next
    }
  }
  return x * Math.log(x / np) + np - x
}

/** x^a e^-x / Gamma(a + 1). */
function poissonTerm(a: number, x: number): number {
  if (a === 0) return Math.exp(-x)
  return Math.exp(-stirlingError(a) - deviance(a, x) - 0.5 * (LN_2PI + Math.log(a)))
}

/** Regularised incomplete gamma functions: P (lower) and Q (upper), a > 0, x >= 0. */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (!(x > 0)) return { lower: 0, upper: 1 }
  if (x === Infinity) return { lower: 1, upper: 0 }
  const term = poissonTerm(a, x)
  if (x < a + 1) {
    let sum = 1
    let each = 1
    for (let k = 1; k < 100_000; k++) {
      each *= x / (a + k)
      sum += each
      if (each < sum * EPSILON) break
    }
    const lower = term * sum
    return { lower, upper: 1 - lower }
  }
  let b = x + 1 - a
  let c = 1 / TINY
  let d = 1 / b
  let h = d
  for (let k = 1; k < 100_000; k++) {
    const an = -k * (k - a)
    b += 2
    d = an * d + b
    if (Math.abs(d) < TINY) d = TINY
    c = b + an / c
    if (Math.abs(c) < TINY) c = TINY
    d = 1 / d
    const delta = d * c
    h *= delta
    if (Math.abs(delta - 1) < EPSILON) break
  }
  const upper = term * a * h
  return { lower: 1 - upper, upper }
}

/** x^a y^b / B(a, b) for x + y = 1; `off` is a - (a + b) x. */
function betaPrefactor(a: number, b: number, x: number, y: number, off: number): number {
  const n = a + b
  const exponent = stirlingError(n) - stirlingError(a) - stirlingError(b)
    - deviance(a, n * x, off) - deviance(b, n * y, -off)
  // B(a, b) = Gamma(a) Gamma(b) / Gamma(n); the square roots of Stirling's formula gather here.
  return Math.exp(exponent) * Math.sqrt((a * b) / (n * 2 * Math.PI))
}

/**
 * Continued fraction of the incomplete beta function (A. R. DiDonato and A. H. Morris, ACM Trans.
 * Math. Softw. 18 (1992) 360, eq. 9), by Lentz's method: no cancellation where x is near 1.
 */
function betaFraction(a: number, b: number, x: number, y: number, off: number): number {
  const term = (k: number) => k + (k * (b - k) * x) / (a + 2 * k - 1)
    + ((a + k) * (off + 1 + k * (1 + y))) / (a + 2 * k + 1)
  let h = (a * (off + 1)) / (a + 1)
  if (Math.abs(h) < TINY) h = TINY
  let c = h
  let d = 0
  for (let k = 1; k < 100_000; k++) {
    const alpha = ((a + k - 1) * (a + b + k - 1) * k * (b - k) * x * x) / (a + 2 * k - 1) ** 2
    const beta = term(k)
    d = beta + alpha * d
    if (Math.abs(d) < TINY) d = TINY
    c = beta + alpha / c
    if (Math.abs(c) < TINY) c = TINY
    d = 1 / d
    const delta = d * c
    h *= delta
    if (Math.abs(delta - 1) < EPSILON) break
  }
  return 1 / h
}

/**
 * Regularised incomplete beta I_x(a, b) and its complement. `y` is 1 - x, given apart so that a
 * small one keeps its digits.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): { lower: number; upper: number } {
  if (!(x > 0)) return { lower: 0, upper: 1 }
  if (!(y > 0)) return { lower: 1, upper: 0 }
  const n = a + b
  const off = x < y ? a - n * x : n * y - b
  if (x < (a + 1) / (n + 2)) {
    const lower = betaPrefactor(a, b, x, y, off) * betaFraction(a, b, x, y, off)
    return { lower, upper: 1 - lower }
  }
  const upper = betaPrefactor(b, a, y, x, -off) * betaFraction(b, a, y, x, -off)
  return { lower: 1 - upper, upper }
}

/**
 * Solves cumulative(x) = target for increasing `cumulative` on [low, high] by Newton's method kept
 * inside a shrinking bracket.
 */
export function invert(
  cumulative: (x: number) => number, density: (x: number) => number, target: number, low: number, high: number,
  start: number,
): number {
  let x = start
  for (let k = 0; k < 200; k++) {
    const error = cumulative(x) - target
    if (error === 0) return x
    if (error > 0) high = x
    else low = x
    let next = x - error / density(x)
    if (!(next > low && next < high)) {
      if (high === Infinity) next = x > 0 ? 2 * x : 1
      else next = (low + high) / 2
    }
    if (Math.abs(next - x) <= 2e-16 * Math.abs(next)) return next
    x = next
  }
  return x
}

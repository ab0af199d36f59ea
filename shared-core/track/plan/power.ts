/** Power of a paired t test: how often a difference that is there would be found. */
import { normalCdf, studentQuantile } from '@core/uncertainty'

const STEPS = 400

/**
 * Distribution function of the noncentral t (N. L. Johnson and B. L. Welch, Biometrika 31 (1940) 362): the
 * normal's over the distribution of s/sigma, integrated by Simpson's rule over the middle of that.
 *
 * @param dof 1 or more
 */
export function noncentralT(t: number, dof: number, shift: number): number {
  // Density of s/sigma = sqrt(chi^2/dof); its mode is near 1, its spread near 1/sqrt(2 dof).
  const logDensity = (s: number): number => (s <= 0 ? -Infinity : (dof - 1) * Math.log(s) - (dof * s * s) / 2)
  const most = logDensity(Math.sqrt(Math.max(1e-9, (dof - 1) / dof)) || 1e-9)
  const reach = 9 / Math.sqrt(2 * dof)
  const [low, high] = [Math.max(0, 1 - reach), 1 + reach]
  const step = (high - low) / STEPS
  let [sum, mass] = [0, 0]
  for (let i = 0; i <= STEPS; i++) {
    const s = low + i * step
    const weight = (i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(logDensity(s) - most)
    mass += weight
    sum += weight * normalCdf(t * s - shift)
  }
  return sum / mass
}

/**
 * Power of the two-sided paired t test.
 *
 * @param pairs 2 or more
 * @param effect the difference over the standard deviation of one pair's difference
 * @param level two-sided level of significance
 */
export function pairedPower(pairs: number, effect: number, level: number): number {
  const critical = studentQuantile(1 - level / 2, pairs - 1)
  const shift = effect * Math.sqrt(pairs)
  return 1 - noncentralT(critical, pairs - 1, shift) + noncentralT(-critical, pairs - 1, shift)
}

/** Derivatives of the inverse from those of the curve. */

/**
 * `out` holds the drop's derivatives at this force; it receives the force and its derivatives by the
 * drop and by theta (theorem of the implicit function).
 */
export function invertDerivatives(elasticN: number, count: number, out: Float64Array): void {
  const slope = out[1]!
  out[0] = elasticN
  out[1] = 1 / slope
  for (let j = 0; j < count; j++) out[2 + j] = -out[2 + j]! / slope
}

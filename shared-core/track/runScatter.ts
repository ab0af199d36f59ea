/**
 * Run-to-run scatter beyond what the repeats within the runs explain (R. C. Paule and J. Mandel,
 * J. Res. Natl. Bur. Stand. 87 (1982) 377): the variance that brings the weighted sum of squares to
 * its degrees of freedom.
 */

/**
 * @param misfit weighted sum of squares about the fit when `extra` is added to every variance; falls with `extra`
 * @param dof degrees of freedom of that sum, 1 or more
 * @returns extra variance per run, zero or more, in the square of the values' unit
 */
export function extraVariance(misfit: (extra: number) => number, dof: number): number {
  const least = misfit(0)
  if (!(least > dof)) return 0
  let high = 1e-12
  while (misfit(high) > dof && high < 1e12) high *= 4
  let low = 0
  for (let step = 0; step < 200 && high - low > 1e-12 * high; step++) {
    const middle = (low + high) / 2
    if (misfit(middle) > dof) low = middle
    else high = middle
  }
  return (low + high) / 2
}

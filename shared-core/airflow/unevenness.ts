/**
 * What a traverse's spread is made of. Where the jet is uneven, each place has its own speed, and all runs
 * of one setting over one grid meet the same; how the meter was held and read is each traverse's own. Two
 * or more traverses over the same places tell the two apart (two-way analysis of variance without
 * repeats: H. Scheffe, The Analysis of Variance, 1959, 4.2 and 7.4).
 */

/** Relative variances of V squared: of the places about their mean, and of one traverse's reading at a place. */
export interface Unevenness {
  readonly places: number
  readonly readings: number
  /** Degrees of freedom of the readings' part; 0 where nothing tells it apart. */
  readonly readingsDof: number
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length

/**
 * Splits the spread of two or more traverses over the same two or more places.
 *
 * @param squares V squared, one row a traverse
 */
export function splitUnevenness(squares: readonly (readonly number[])[]): Unevenness {
  // Against each traverse's own mean: the jet may have been a little stronger in one.
  const relative = squares.map((row) => row.map((each) => each / meanOf(row) - 1))
  const traverses = relative.length
  const places = relative[0]!.length
  const means = relative[0]!.map((_, j) => meanOf(relative.map((row) => row[j]!)))
  const left = relative.reduce((sum, row) => sum + row.reduce((one, each, j) => one + (each - means[j]!) ** 2, 0), 0)
  const readingsDof = (traverses - 1) * (places - 1)
  const readings = left / readingsDof
  const between = means.reduce((sum, each) => sum + each * each, 0) / (places - 1)
  return { places: Math.max(0, between - readings / traverses), readings, readingsDof }
}

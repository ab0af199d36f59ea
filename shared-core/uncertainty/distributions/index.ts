/** Distribution functions and quantiles that intervals and tests need. */
export { normalCdf, normalDensity, normalQuantile, normalUpper } from './normal'
export { chiSquareCdf, chiSquareDensity, chiSquareUpper } from './chiSquare'
export { studentCdf, studentDensity, studentQuantile, studentUpper } from './studentT'
export { fCdf, fDensity, fUpper } from './fRatio'

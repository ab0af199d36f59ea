/** The face of the uncertainty room. */
export * from './source'
export * from './uncertain'
export * from './statement'
export { normalCdf, normalDensity, normalQuantile, normalUpper } from './distributions/normal'
export { chiSquareUpper } from './distributions/chiSquare'
export { studentCdf, studentDensity, studentQuantile, studentUpper } from './distributions/studentT'
export { fUpper, ratioUpper } from './distributions/fRatio'
export * from './interval'
export * from './claim'
export * from './fieller'
export { Stream } from './monteCarlo/stream'
export { bothEnds, selectNth, symmetricEnds, type Ends } from './monteCarlo/select'
export { trialsOf, type Trials, type Variant } from './monteCarlo/trials'
export {
  blockSize, Collector, monteCarlo, monteCarloNow, numericalTolerance, type MonteCarloOptions, type MonteCarloResult,
  type OutputResult, type Progress,
} from './monteCarlo/run'
export { monteCarloStatement, validate, type Validation } from './monteCarlo/validate'
export * from './median'
export * from './significance'

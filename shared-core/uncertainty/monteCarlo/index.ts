/** The face of Monte Carlo propagation. */
export { Stream } from './stream'
export { bothEnds, selectNth, symmetricEnds, type Ends } from './select'
export { trialsOf, type Trials, type Variant } from './trials'
export {
  blockSize, Collector, monteCarlo, monteCarloNow, numericalTolerance,
  type MonteCarloOptions, type MonteCarloResult, type OutputResult, type Progress,
} from './run'
export { monteCarloStatement, validate, type Validation } from './validate'

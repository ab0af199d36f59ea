/** The face of the fit. */
export * from './types'
export { fit } from './solve'
export { denseObservations, structured, type Covariance, type Structured } from './dense'
export { estimatesOf, type Estimate } from './estimates'

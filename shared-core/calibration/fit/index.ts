/** The face of the fit. */
export * from './types'
export { fit } from './solve'
export { estimatesOf, type Estimate } from './estimates'

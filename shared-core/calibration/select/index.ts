/** The face of fitting and weighing all candidates. */
export type * from './types'
export { bestOf, fitCandidates } from './candidates'
export { aiccOf, akaikeWeights } from './weights'

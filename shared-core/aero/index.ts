/** The face of the aero room. */
export type * from './types'

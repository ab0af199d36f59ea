/** The marks of a squat test's readings, the same on paper and in the window. */
import type { CurvePoint } from '@core/calibration'

export interface Mark {
  readonly shape: 'circle' | 'up' | 'diamond' | 'square' | 'cross'
  readonly hollow: boolean
}

export const BRANCH_MARKS: Readonly<Record<CurvePoint['branch'], Mark>> = {
  loading: { shape: 'circle', hollow: false }, unloading: { shape: 'up', hollow: true }, mid: { shape: 'diamond', hollow: false },
}

/** Read with the tray on the ground. */
export const TOUCHED_MARK: Mark = { shape: 'square', hollow: true }

/** Set aside, or without use for the curve. */
export const UNUSED_MARK: Mark = { shape: 'cross', hollow: true }

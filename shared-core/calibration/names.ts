/** Names of curves in source ids and keys. */
import type { CurveOf } from './types'

/** `axle:front`, `corner:rearLeft`. */
export const nameOfCurve = (of: CurveOf): string => (of.kind === 'axle' ? `axle:${of.axle}` : `corner:${of.corner}`)

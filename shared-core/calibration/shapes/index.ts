/** The face of the candidate shapes. */
import type { Shape } from '../types'
import { cubic } from './cubic'
import { linear } from './linear'
import { progressive } from './progressive'
import { stop, thresholdStop } from './stop'
import { threshold } from './threshold'
import type { ShapeCurve, ShapeSpan } from './types'

export type { ShapeCurve, ShapeSpan } from './types'
export { branchedCurve, elasticForce, type BranchOf } from './friction'
export { secondLoad, startsFor, type StartData } from './starts'

const FAMILIES: Record<Shape, (span: ShapeSpan) => ShapeCurve> = {
  linear, threshold, progressive, cubic, stop, thresholdStop,
}

/** A candidate shape over a range. */
export const shapeCurve = (shape: Shape, span: ShapeSpan): ShapeCurve => FAMILIES[shape](span)

/** Marks as uncertain points: snapped, repeated by hand, or made once. */
import type { PictureMark } from '@core/schema'
import { fromData, fromSource, known, type Uncertain } from '@core/uncertainty'
import type { Px } from '../raster/luminance'

/** Standard uncertainty of one careful mark by hand with the magnifier, px (common practice, no source). */
export const HAND_MARK_U_PX = 0.5

/** The finest step a mark can be nudged by, px. */
export const NUDGE_PX = 0.1

/** Mean of repeated marks of one point with the standard uncertainty of that mean (type A). */
export interface RepeatedMark { readonly at: Px; readonly uPx: number; readonly dof: number }

/**
 * Both coordinates scatter alike, so their variance is pooled: 2 (n - 1) degrees of freedom. Not
 * below what the nudging step alone leaves open.
 *
 * @param points one or more marks of the same point; one alone takes `HAND_MARK_U_PX`
 * @throws RangeError of no points
 */
export function averageMarks(points: readonly Px[]): RepeatedMark {
  const n = points.length
  if (n === 0) throw new RangeError('averageMarks needs one mark or more')
  const x = points.reduce((sum, p) => sum + p.x, 0) / n
  const y = points.reduce((sum, p) => sum + p.y, 0) / n
  if (n === 1) return { at: { x, y }, uPx: HAND_MARK_U_PX, dof: Infinity }
  const dof = 2 * (n - 1)
  const square = points.reduce((sum, p) => sum + (p.x - x) ** 2 + (p.y - y) ** 2, 0) / dof
  return { at: { x, y }, uPx: Math.hypot(Math.sqrt(square / n), NUDGE_PX / Math.sqrt(12)), dof }
}

/**
 * A mark's two coordinates, each with a source of its own. The sources are named by the mark's id
 * alone: a mark taken over into another picture (a tripod that stood still) stays one mark.
 */
export function pointOf(mark: PictureMark): readonly [Uncertain, Uncertain] {
  const repeated = !mark.snapped && mark.repeats.length > 1
  const coordinate = (axis: 'x' | 'y', value: number): Uncertain => {
    const id = `camera:mark:${mark.id}:${axis}`
    const once = () => (mark.snapped ? fromData('mark', id, Infinity) : known('mark', id))
    return fromSource(value, mark.uPx, repeated ? fromData('repeatedMark', id, 2 * (mark.repeats.length - 1)) : once())
  }
  return [coordinate('x', mark.at.xPx), coordinate('y', mark.at.yPx)]
}

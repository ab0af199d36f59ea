/** The lens of one picture as uncertain values: measured on its edge, given, or as usual for its kind of camera. */
import type { Picture } from '@core/schema'
import { combine, entered, exact, fromData, fromSource, known, type Uncertain } from '@core/uncertainty'
import { usualCamera } from './cameraKind'
import { LEAST_EDGE_MARKS, lensFromEdge, type Lens, type LensFit } from './lens'

/** The lens' terms as inputs of a model, in the order k1, k2, offX, offY. */
export interface LensInputs {
  readonly inputs: readonly [Uncertain, Uncertain, Uncertain, Uncertain]
  /** Where they come from. `edge` only where the edge told them. */
  readonly from: 'edge' | 'given' | 'kind' | 'unknown'
  /** What the edge told, or why it did not; null without one. */
  readonly fit: LensFit | null
}

/** From how many times its u on a misfit is worth a sentence. */
export const CLEAR_MISFIT = 2

/** The lens of a picture. Pictures of one set-up share its errors, the middle's included. */
export function lensOf(picture: Picture): LensInputs {
  const setup = picture.setupId ?? picture.id
  const usual = usualCamera(picture.cameraKind)
  const offU = usual.offShareU * Math.max(picture.widthPx, picture.heightPx)
  const offs = (['x', 'y'] as const).map((axis) => fromSource(0, offU, known('lens', `camera:${setup}:lens:off:${axis}`)))
  const [offX, offY] = offs as [Uncertain, Uncertain]
  const marks = picture.marks.filter(({ role }) => role === 'edge')
    .map(({ at, uPx }) => ({ x: at.xPx, y: at.yPx, uPx: Math.max(uPx, 1e-3) }))
  const before = picture.cameraKind ? usual : null
  const fit = marks.length >= LEAST_EDGE_MARKS ? lensFromEdge(marks, picture, before) : null
  if (fit?.kind === 'measured') return { inputs: [...measured(fit, setup, offX, offY), offX, offY], from: 'edge', fit }
  const own = `camera:${setup}:lens`
  if (picture.lensK1) {
    const { value, u } = picture.lensK1
    const isStraight = value === 0 && u === 0
    const middle = isStraight ? exact(0) : null
    return { inputs: [entered({ value, u }, 'lens', own), exact(0), middle ?? offX, middle ?? offY], from: 'given', fit }
  }
  const from = picture.cameraKind ? 'kind' : 'unknown'
  const second = entered(usual.k2, 'lens', `camera:${setup}:lens:second`)
  return { inputs: [entered(usual.k1, 'lens', own), second, offX, offY], from, fit }
}

type Measured = Extract<LensFit, { kind: 'measured' }>

/** Two sources by Cholesky's factor of the covariance, and what the middle's place does to both terms. */
function measured(fit: Measured, setup: string, offX: Uncertain, offY: Uncertain): [Uncertain, Uncertain] {
  const { covariance: [[aa, ab], [, bb]], perOffX, perOffY, dof, misfit } = fit
  const scatter = misfit > 1 && dof > 0 ? dof : Infinity
  const source = (name: string) => fromData('lens', `camera:${setup}:lens:${name}`, scatter, `camera:${setup}:lens`)
  const along = fromSource(0, 1, source('along'))
  const across = fromSource(0, 1, source('across'))
  const first = Math.sqrt(aa)
  const rest = Math.sqrt(Math.max(0, bb - (ab / first) ** 2))
  return [
    combine(fit.k1, [[along, first], [offX, perOffX[0]], [offY, perOffY[0]]]),
    combine(fit.k2, [[along, ab / first], [across, rest], [offX, perOffX[1]], [offY, perOffY[1]]]),
  ]
}

/** The lens from the values of its four inputs. */
export const lensFrom = ([k1, k2, offX, offY]: readonly [number, number, number, number]): Lens =>
  ({ k1, k2, offX, offY })

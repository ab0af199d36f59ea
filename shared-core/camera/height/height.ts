/** Heights and drops read from pictures, with their budgets, and their way into readings. */
import type { Corner, Picture, PictureMark, ReadingSource } from '@core/schema'
import { minus, variance, type Part, type Source, type SourceRole, type Uncertain } from '@core/uncertainty'
import { propagate } from '../plane/propagate'
import { pointOf } from './marks'
import { heightModel, type Assumption, type Datum, type HeightLack } from './model'

export type HeightResult =
  | { readonly kind: 'height'; readonly heightMm: Uncertain; readonly assumed: readonly Assumption[] }
  | { readonly kind: 'lacking'; readonly lack: HeightLack }

/**
 * Height of a corner's chassis mark above its hub mark (the suspension alone) or above the ground
 * (with the tyre), mm, positive up, with every source of its uncertainty.
 *
 * @param frameS in a clip, the media time at which the marks were made; null for a still
 */
export function heightOf(
  picture: Picture, corner: Corner, datum: Datum, frameS: number | null = null,
): HeightResult {
  const model = heightModel(picture, corner, datum, frameS)
  if (!model.ok) return { kind: 'lacking', lack: model.lack }
  const heightMm = propagate(model.inputs, model.height)
  // Only a plane seen edge-on gives no number.
  if (!Number.isFinite(heightMm.value) || !Number.isFinite(variance(heightMm))) {
    return { kind: 'lacking', lack: 'planeShape' }
  }
  return { kind: 'height', heightMm, assumed: model.assumed }
}

/** Drop from one height to another, mm, positive down. What both share (scale, lens, depth) cancels. */
export const dropBetween = (zeroMm: Uncertain, loadedMm: Uncertain): Uncertain => minus(zeroMm, loadedMm)

/** The builder's names for the parts of a picture's budget: what to improve. */
export type CameraPart =
  | 'marks' | 'scale' | 'distance' | 'lens' | 'tilt' | 'level' | 'parallax' | 'blur' | 'scatter' | 'other'

export interface CameraBudgetRow { readonly part: CameraPart; readonly uMm: number; readonly share: number }

const PART_OF: Partial<Record<SourceRole, CameraPart>> = {
  mark: 'marks', repeatedMark: 'marks', pictureScale: 'scale', pictureDistance: 'distance', lens: 'lens', tilt: 'tilt',
  level: 'level', depth: 'parallax', pathDepth: 'parallax', blur: 'blur', windowScatter: 'scatter',
}

const partOf = ({ role }: Source): CameraPart => PART_OF[role] ?? 'other'

/** The budget of a height or drop by what a builder would improve, largest first. */
export function cameraBudget(result: Uncertain): CameraBudgetRow[] {
  const total = variance(result)
  const squares = new Map<CameraPart, number>()
  for (const { source, contribution } of result.parts) {
    const part = partOf(source)
    squares.set(part, (squares.get(part) ?? 0) + contribution ** 2)
  }
  return [...squares]
    .map(([part, square]) => ({ part, uMm: Math.sqrt(square), share: total === 0 ? 0 : square / total }))
    .sort((a, b) => b.uMm - a.uMm)
}

/** Contributions below this share of the variance are not worth a line in a stored reading. */
const NEGLIGIBLE = 1e-6

/**
 * A picture height as the source of a reading: its own uncertainty, and the parts that other
 * readings have too. Own is what no other reading can share: blur, the scatter of a window, and in a
 * still the marks of this corner.
 *
 * @param ownMarks marks that only this reading was made from
 */
export function readingSourceOf(
  heightMm: Uncertain, pictureId: string, ownMarks: readonly PictureMark[],
): Extract<ReadingSource, { kind: 'picture' }> {
  const total = variance(heightMm)
  const marks = new Set(ownMarks.flatMap(pointOf).flatMap(({ parts }) => parts.map(({ source }) => source.id)))
  const isOwn = ({ source }: Part): boolean => ['blur', 'scatter'].includes(partOf(source)) || marks.has(source.id)
  const own = heightMm.parts.filter(isOwn)
  const shared = heightMm.parts
    .filter((part) => !isOwn(part) && part.contribution ** 2 > NEGLIGIBLE * total)
    .sort((a, b) => Math.abs(b.contribution) - Math.abs(a.contribution))
  const kept = shared.slice(0, 100)
  const rest = heightMm.parts.filter((part) => !isOwn(part) && !kept.includes(part))
  const uMm = Math.sqrt([...own, ...rest].reduce((sum, { contribution }) => sum + contribution ** 2, 0))
  return {
    kind: 'picture', pictureId, uMm,
    shared: kept.map(({ source, contribution }) => ({ source: source.id, contributionMm: contribution })),
  }
}

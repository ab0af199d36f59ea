/** A round patch of one frame, kept to be found again in others, and the search for it. */
import type { Luminance, Px } from '../raster/luminance'

/** A row of the round patch: `dy` from its middle pixel, and how far it reaches to each side. */
interface Span { readonly dy: number; readonly reach: number; readonly start: number }

export interface Template {
  /** Where the mark lies against the middle of the patch's middle pixel, px. */
  readonly offset: Px
  readonly half: number
  readonly spans: readonly Span[]
  /** Pixels of the patch, row by row, less their mean. */
  readonly values: Float32Array
  /** Root of the summed squares of `values`. */
  readonly norm: number
  /** Slopes of the patch along x and y, levels per px, each less its mean. */
  readonly slopeX: Float32Array
  readonly slopeY: Float32Array
}

/**
 * Cuts a template around a mark.
 *
 * @param half radius of the patch, px, 4 or more
 * @returns null where the patch (with one px around for its slopes) leaves the picture or is flat
 */
export function cutTemplate(picture: Luminance, at: Px, half: number): Template | null {
  const cx = Math.floor(at.x)
  const cy = Math.floor(at.y)
  const rim = half + 1
  if (cx - rim < 0 || cy - rim < 0 || cx + rim >= picture.width || cy + rim >= picture.height) return null
  const spans: Span[] = []
  let count = 0
  for (let dy = -half; dy <= half; dy++) {
    const reach = Math.floor(Math.sqrt((half + 0.5) ** 2 - dy * dy))
    spans.push({ dy, reach, start: count })
    count += 2 * reach + 1
  }
  const values = new Float32Array(count)
  const slopeX = new Float32Array(count)
  const slopeY = new Float32Array(count)
  const { width, data } = picture
  for (const { dy, reach, start } of spans) {
    for (let dx = -reach, k = start; dx <= reach; dx++, k++) {
      const i = (cy + dy) * width + cx + dx
      values[k] = data[i]!
      slopeX[k] = (data[i + 1]! - data[i - 1]!) / 2
      slopeY[k] = (data[i + width]! - data[i - width]!) / 2
    }
  }
  for (const each of [values, slopeX, slopeY]) centreValues(each)
  const norm = Math.sqrt(values.reduce((sum, value) => sum + value * value, 0))
  // A patch whose pixels scatter by less than two levels has nothing to be known by.
  if (!(norm > 2 * Math.sqrt(count))) return null
  return { offset: { x: at.x - cx - 0.5, y: at.y - cy - 0.5 }, half, spans, values, norm, slopeX, slopeY }
}

function centreValues(values: Float32Array): void {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  for (let k = 0; k < values.length; k++) values[k]! -= mean
}

/** Normalised cross-correlation of the template with the patch around pixel (cx, cy): -1 to 1; 0 in a flat patch. */
export function correlationAt(picture: Luminance, template: Template, cx: number, cy: number): number {
  const { width, data } = picture
  const { values } = template
  let cross = 0
  let sum = 0
  let square = 0
  for (const { dy, reach, start } of template.spans) {
    const row = (cy + dy) * width + cx - reach
    const end = start + 2 * reach + 1
    for (let k = start, i = row; k < end; k++, i++) {
      const level = data[i]!
      cross += values[k]! * level
      sum += level
      square += level * level
    }
  }
  const spread = square - (sum * sum) / values.length
  return spread > 0 ? cross / (template.norm * Math.sqrt(spread)) : 0
}

/** The same on every second pixel of every second row, for a first look over a wide area. */
function sparseCorrelationAt(picture: Luminance, template: Template, cx: number, cy: number): number {
  const { width, data } = picture
  const { values, spans } = template
  let cross = 0
  let sum = 0
  let square = 0
  let own = 0
  let ownSquare = 0
  let n = 0
  for (let s = 0; s < spans.length; s += 2) {
    const { dy, reach, start } = spans[s]!
    const row = (cy + dy) * width + cx - reach
    const end = start + 2 * reach + 1
    for (let k = start, i = row; k < end; k += 2, i += 2) {
      const level = data[i]!
      const value = values[k]!
      cross += value * level
      sum += level
      square += level * level
      own += value
      ownSquare += value * value
      n += 1
    }
  }
  const spread = (square - (sum * sum) / n) * (ownSquare - (own * own) / n)
  return spread > 0 ? (cross - (own * sum) / n) / Math.sqrt(spread) : 0
}

/**
 * The displacement by which several templates fit best together: a car's marks move alike, which
 * tells stickers of one kind apart even where they move farther than they are from each other.
 *
 * @param at where each template's middle was
 * @param reach farthest displacement looked at, px, along x and y
 * @returns null where some template never lies inside
 */
export function commonShift(
  picture: Luminance, templates: readonly Template[], at: readonly Px[], reach: Px,
): Px | null {
  let best: Px | null = null
  let bestSum = -Infinity
  for (let dy = -reach.y; dy <= reach.y; dy += 2) {
    for (let dx = -reach.x; dx <= reach.x; dx += 2) {
      let sum = 0
      for (let k = 0; k < templates.length && !Number.isNaN(sum); k++) {
        const template = templates[k]!
        const cx = Math.floor(at[k]!.x) + dx
        const cy = Math.floor(at[k]!.y) + dy
        sum += fitsAt(picture, template, cx, cy) ? sparseCorrelationAt(picture, template, cx, cy) : Number.NaN
      }
      if (sum > bestSum) {
        bestSum = sum
        best = { x: dx, y: dy }
      }
    }
  }
  return best
}

const fitsAt = ({ width, height }: Luminance, { half }: Template, cx: number, cy: number): boolean =>
  cx >= half && cy >= half && cx < width - half && cy < height - half

/** A match at whole pixels. */
export interface Match {
  readonly cx: number
  readonly cy: number
  readonly score: number
  /** True where a better match may lie outside the area searched. */
  readonly atRim: boolean
}

/** Middle pixels at which the template lies wholly inside, with room for the refinement's interpolation. */
function bounds(picture: Luminance, { half }: Template, at: Px, reach: number) {
  const rim = half + 3
  return {
    left: Math.max(rim, Math.floor(at.x) - reach), right: Math.min(picture.width - 1 - rim, Math.floor(at.x) + reach),
    top: Math.max(rim, Math.floor(at.y) - reach), bottom: Math.min(picture.height - 1 - rim, Math.floor(at.y) + reach),
  }
}

/** The best match within `reach` px of where the patch's middle is expected; null where none fits inside. */
export function searchNear(picture: Luminance, template: Template, at: Px, reach: number): Match | null {
  const { left, right, top, bottom } = bounds(picture, template, at, reach)
  let best: { cx: number; cy: number; score: number } | null = null
  for (let cy = top; cy <= bottom; cy++) {
    for (let cx = left; cx <= right; cx++) {
      const score = correlationAt(picture, template, cx, cy)
      if (!best || score > best.score) best = { cx, cy, score }
    }
  }
  if (!best) return null
  const atRim = best.cx === left || best.cx === right || best.cy === top || best.cy === bottom
  return { ...best, atRim }
}

/** Two matches closer in score than this are told apart by their distance, not by their score. */
const ALIKE = 0.04

/**
 * A wide search: every second pixel with a thinned template, then closely around the best. Of several
 * that look alike (stickers of one kind do) the nearest to where it is expected is taken.
 */
export function searchWide(picture: Luminance, template: Template, at: Px, reach: number): Match | null {
  const { left, right, top, bottom } = bounds(picture, template, at, reach)
  const seen: { cx: number; cy: number; score: number }[] = []
  let top1 = -1
  for (let cy = top; cy <= bottom; cy += 2) {
    for (let cx = left; cx <= right; cx += 2) {
      const score = sparseCorrelationAt(picture, template, cx, cy)
      if (score > 0.4) seen.push({ cx, cy, score })
      if (score > top1) top1 = score
    }
  }
  const distance = ({ cx, cy }: { cx: number; cy: number }): number => Math.hypot(cx + 0.5 - at.x, cy + 0.5 - at.y)
  const peaks = seen
    .filter(({ score }) => score > top1 - 2 * ALIKE - 0.1)
    .sort((a, b) => b.score - a.score)
    .slice(0, 40)
  let best: Match | null = null
  const tried: { cx: number; cy: number }[] = []
  for (const peak of peaks) {
    if (tried.some(({ cx, cy }) => Math.abs(cx - peak.cx) < 4 && Math.abs(cy - peak.cy) < 4)) continue
    tried.push(peak)
    const match = searchNear(picture, template, { x: peak.cx + 0.5, y: peak.cy + 0.5 }, 3)
    if (!match) continue
    const nearer = best !== null && distance(match) < distance(best)
    if (!best || match.score > best.score + (nearer ? -ALIKE : ALIKE)) best = match
  }
  return best
}

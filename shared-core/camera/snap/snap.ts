/** Snaps a rough point to the middle of a round sticker, with the snap's own standard uncertainty. */
import type { Luminance, Px } from '../raster/luminance'
import { findBlobs, type Blob } from './blob'
import { centroidOf } from './centroid'
import { edgeFitOf } from './edgeFit'
import { surroundOf } from './surround'

/** Why a point could not be snapped. */
export type SnapRefusal = 'noSpot' | 'faint' | 'atBorder' | 'notRound' | 'tooSmall' | 'outside' | 'twoSpots'

export type Snap =
  | {
      readonly kind: 'snapped'
      readonly at: Px
      /** Standard uncertainty of each coordinate, px. */
      readonly uPx: number
      readonly radiusPx: number
      readonly polarity: 'dark' | 'light'
      /** Sticker against background, levels, signed. */
      readonly contrast: number
      /** Standard deviation of one pixel's noise, levels. */
      readonly noise: number
      /** The two estimates it was made of. */
      readonly byIntensity: Px
      readonly byEdge: Px
    }
  | { readonly kind: 'refused'; readonly why: SnapRefusal }

/** Smallest radius that can be measured, px. */
export const MIN_STICKER_RADIUS_PX = 2

/** What the grid of pixels itself leaves over, px; found with noise-free synthetic stickers. */
const PIXEL_GRID_PX = 0.004

/**
 * The middle of a tilted circle's image is not the image of its middle: they differ by about
 * r^2 tan(tilt) / f. With a focal length of about the picture's width, and a tilt of up to 3 degrees
 * as usual for a camera set up square to the car, its standard uncertainty is this times r^2 / width.
 */
const ASKEW = 0.03

/**
 * The largest shape misfit of a round spot, as a share of its radius and never below a part of a px.
 * A square with sharp corners has 0.10 of its radius, a hexagon 0.03 (computed from their outlines).
 */
const ROUND = { share: 0.025, leastPx: 0.12 }

/** A click may miss the border of a small spot by this much, px, or by a part of the radius of a large one. */
const MISS = { px: 1, share: 0.1 }

const refused = (why: SnapRefusal): Snap => ({ kind: 'refused', why })

/**
 * Sub-pixel middle of the round sticker at or near a point, dark on light or light on dark.
 *
 * Two estimates are made: the intensity centroid, which uses every pixel, and an ellipse through the
 * border, which does not mind a shine inside. The estimate is their mean weighted by inverse
 * variance. The standard uncertainty takes both as fully correlated (they see the same pixels) and
 * adds what they disagree by as a rectangular distribution, since then one of them is misled; then
 * what the border differs from an ellipse by, the pixel grid, and the eccentricity of a sticker seen
 * slightly askew.
 *
 * Only a truly round spot is taken, and only where the point lies in it: a square, a stripe or the
 * corner of a board is refused, and no snap carries a mark out of what was clicked. Where the point lies in a
 * round spot off the middle of a larger one, nobody can tell which was meant: refused, too.
 *
 * @param near where the builder pointed, px
 */
export function snapToSticker(picture: Luminance, near: Px): Snap {
  if (!inside(picture, near)) return refused('noSpot')
  let last = refused('noSpot')
  let first: Snapped | null = null
  for (const blob of findBlobs(picture, near, MISS.px)) {
    const snap = measure(picture, blob)
    if (snap.kind === 'refused') {
      last = snap
      continue
    }
    const away = Math.hypot(snap.at.x - near.x, snap.at.y - near.y) - snap.radiusPx
    if (away > Math.max(MISS.px, MISS.share * snap.radiusPx)) last = refused('outside')
    else if (first === null) first = snap
    else if (isShineOn(first, snap)) return refused('twoSpots')
  }
  return first ?? last
}

type Snapped = Extract<Snap, { kind: 'snapped' }>

/** A round spot off the middle of a larger one: a shine on it, say. A card around a sticker has the same middle. */
const isShineOn = (small: Snapped, large: Snapped): boolean => large.radiusPx > 1.5 * small.radiusPx
  && Math.hypot(large.at.x - small.at.x, large.at.y - small.at.y) > Math.max(1, 0.15 * large.radiusPx)

function measure(picture: Luminance, blob: Blob): Snap {
  if (blob.radiusPx < MIN_STICKER_RADIUS_PX) return refused('tooSmall')
  const first = surroundOf(picture, blob.at, blob.radiusPx)
  if (!first.whole) return refused('atBorder')
  if (isFaint(first)) return refused('faint')
  const rough = centroidOf(picture, blob.at, blob.radiusPx, first).at
  const edge = edgeFitOf(picture, rough, blob.radiusPx, first)
  if (!edge) return refused('notRound')
  const shapeless = edge.misfitPx > Math.max(ROUND.leastPx, ROUND.share * edge.radiusPx)
  if (edge.ovality > 0.4 || shapeless || edge.scatterPx > 0.3 + 0.06 * edge.radiusPx) return refused('notRound')
  if (edge.radiusPx < MIN_STICKER_RADIUS_PX) return refused('tooSmall')
  const surround = surroundOf(picture, edge.at, edge.radiusPx * (1 + edge.ovality))
  if (!surround.whole) return refused('atBorder')
  if (isFaint(surround)) return refused('faint')
  const centroid = centroidOf(picture, edge.at, edge.radiusPx * (1 + edge.ovality), surround)
  if (!Number.isFinite(centroid.uPx)) return refused('notRound')
  const share = edge.uPx ** 2 / (edge.uPx ** 2 + centroid.uPx ** 2 + 1e-12)
  const at = {
    x: share * centroid.at.x + (1 - share) * edge.at.x,
    y: share * centroid.at.y + (1 - share) * edge.at.y,
  }
  const gap = Math.hypot(centroid.at.x - edge.at.x, centroid.at.y - edge.at.y)
  const uPx = Math.hypot(
    share * centroid.uPx + (1 - share) * edge.uPx, gap / Math.sqrt(12), edge.misfitPx, PIXEL_GRID_PX,
    (ASKEW * edge.radiusPx ** 2) / picture.width,
  )
  return {
    kind: 'snapped', at, uPx, radiusPx: edge.radiusPx, polarity: blob.polarity, contrast: surround.contrast,
    noise: surround.noise, byIntensity: centroid.at, byEdge: edge.at,
  }
}

const inside = ({ width, height }: Luminance, { x, y }: Px): boolean => x >= 0 && y >= 0 && x <= width && y <= height

const isFaint = ({ contrast, noise }: { contrast: number; noise: number }): boolean =>
  Math.abs(contrast) < Math.max(8, 4 * noise)

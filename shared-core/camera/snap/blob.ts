/** Finds round spots nearest to a point: threshold by Otsu (1979), connected pixels, second moments. */
import { crop, type Luminance, type Px } from '../raster/luminance'

/** A round spot as a first guess: middle and radius to about half a px. */
export interface Blob { readonly at: Px; readonly radiusPx: number; readonly polarity: 'dark' | 'light' }

/** Half-widths of the windows tried, px: from the smallest sticker that can be measured to a large one. */
const HALF_WIDTHS = [8, 12, 18, 27, 40, 60, 90, 135]

/** Smallest ratio of the axes that still counts as a round sticker seen askew. */
const MIN_ASPECT = 0.45

/**
 * Candidates from the smallest window to the largest, each the one nearest to the point in its window.
 * A small window inside a large sticker can show a patch of noise: the caller goes on to the next.
 *
 * @param near where the builder pointed
 * @param reachPx how far from the point the spot's own border may lie
 */
export function* findBlobs(picture: Luminance, near: Px, reachPx: number): Generator<Blob> {
  for (const half of HALF_WIDTHS) {
    const { part, x0, y0 } = crop(picture, near, half)
    if (part.width < 6 || part.height < 6) continue
    const found = roundestIn(part, { x: near.x - x0, y: near.y - y0 }, reachPx)
    if (found) yield { ...found, at: { x: found.at.x + x0, y: found.at.y + y0 } }
  }
}

/** The threshold that splits the values into the two classes furthest apart (Otsu), or null in a flat window. */
export function otsu(data: Luminance['data']): number | null {
  const counts = new Float64Array(256)
  for (const value of data) counts[value]! += 1
  const n = data.length
  let total = 0
  for (let value = 0; value < 256; value++) total += value * counts[value]!
  let below = 0
  let belowSum = 0
  let best = 0
  let threshold: number | null = null
  for (let value = 0; value < 255; value++) {
    below += counts[value]!
    belowSum += value * counts[value]!
    if (below === 0 || below === n) continue
    const gap = belowSum / below - (total - belowSum) / (n - below)
    const between = below * (n - below) * gap * gap
    if (between > best) {
      best = between
      threshold = value + 0.5
    }
  }
  return threshold
}

interface Region {
  count: number
  x: number
  y: number
  xx: number
  yy: number
  xy: number
  touches: boolean
  readonly dark: boolean
}

function roundestIn(part: Luminance, near: Px, reachPx: number): Blob | null {
  const threshold = otsu(part.data)
  if (threshold === null) return null
  let best: Blob | null = null
  let bestGap = Infinity
  for (const region of regionsOf(part, threshold)) {
    if (region.touches || region.count < 9) continue
    const blob = roundBlob(region)
    if (!blob) continue
    const gap = Math.hypot(blob.at.x - near.x, blob.at.y - near.y) - blob.radiusPx
    if (gap > reachPx || gap >= bestGap) continue
    bestGap = gap
    best = blob
  }
  return best
}

/** A region whose second moments are those of a filled ellipse of its own area, else null. */
function roundBlob(region: Region): Blob | null {
  const { count } = region
  const x = region.x / count
  const y = region.y / count
  // One pixel's own spread (1/12) belongs to the shape's area, so it stays in.
  const xx = region.xx / count - x * x + 1 / 12
  const yy = region.yy / count - y * y + 1 / 12
  const xy = region.xy / count - x * y
  const middle = (xx + yy) / 2
  const swing = Math.hypot((xx - yy) / 2, xy)
  const aspect = Math.sqrt(Math.max(0, middle - swing) / (middle + swing))
  const fill = count / (4 * Math.PI * Math.sqrt(Math.max(1e-9, xx * yy - xy * xy)))
  if (aspect < MIN_ASPECT || fill < 0.85 || fill > 1.1) return null
  const polarity = region.dark ? 'dark' : 'light'
  return { at: { x: x + 0.5, y: y + 0.5 }, radiusPx: Math.sqrt(count / Math.PI), polarity }
}

/** Connected pixels (four neighbours) of both classes with their moments. */
function* regionsOf({ width, height, data }: Luminance, threshold: number): Generator<Region> {
  const seen = new Uint8Array(data.length)
  const stack: number[] = []
  for (let start = 0; start < data.length; start++) {
    if (seen[start]) continue
    const dark = data[start]! < threshold
    const region: Region = { count: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0, touches: false, dark }
    seen[start] = 1
    stack.push(start)
    while (stack.length > 0) {
      const at = stack.pop()!
      const x = at % width
      const y = (at - x) / width
      take(region, x, y)
      if (x === 0 || y === 0 || x === width - 1 || y === height - 1) region.touches = true
      if (x > 0) visit(at - 1)
      if (x < width - 1) visit(at + 1)
      if (y > 0) visit(at - width)
      if (y < height - 1) visit(at + width)
    }
    yield region

    function visit(next: number): void {
      if (seen[next] || (data[next]! < threshold) !== dark) return
      seen[next] = 1
      stack.push(next)
    }
  }
}

function take(region: Region, x: number, y: number): void {
  region.count += 1
  region.x += x
  region.y += y
  region.xx += x * x
  region.yy += y * y
  region.xy += x * y
}

/** Filled outlines on a picture of several planes: edges smoothed by the share of each pixel they cover. */
export interface Px { x: number; y: number }

/** One level for each plane, 0 to 255. */
export type Paint = readonly number[]

export interface Canvas { readonly width: number; readonly height: number; readonly planes: readonly Float32Array[] }

const ROWS = 4

/** Fills an outline (even and odd crossings); `share` below 1 lets through what is behind. */
export function fill({ width, height, planes }: Canvas, outline: readonly Px[], paint: Paint, share = 1): void {
  const ys = outline.map(({ y }) => y)
  const top = Math.max(0, Math.floor(Math.min(...ys)))
  const bottom = Math.min(height - 1, Math.ceil(Math.max(...ys)))
  const covered = new Float32Array(width)
  for (let j = top; j <= bottom; j++) {
    covered.fill(0)
    for (let row = 0; row < ROWS; row++) spans(outline, j + (row + 0.5) / ROWS, covered)
    for (let i = 0; i < width; i++) {
      const part = share * Math.min(1, covered[i]! / ROWS)
      if (part === 0) continue
      planes.forEach((plane, k) => { plane[j * width + i]! += part * (paint[k]! - plane[j * width + i]!) })
    }
  }
}

/** Adds to each pixel of a line how much of it lies inside the outline. */
function spans(outline: readonly Px[], y: number, covered: Float32Array): void {
  const crossings: number[] = []
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length]!
    if ((a.y <= y) !== (b.y <= y)) crossings.push(a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x))
  })
  crossings.sort((a, b) => a - b)
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    const from = Math.max(0, crossings[k]!)
    const to = Math.min(covered.length, crossings[k + 1]!)
    for (let i = Math.floor(from); i < to; i++) covered[i]! += Math.min(to, i + 1) - Math.max(from, i)
  }
}

/** A smooth closed line through points (Catmull-Rom); points given twice stay corners. */
export function smooth(points: readonly (readonly [number, number])[], steps = 6): [number, number][] {
  const n = points.length
  return points.flatMap((_, i) => {
    const [p0, p1, p2, p3] = [-1, 0, 1, 2].map((by) => points[(i + by + n) % n]!) as [Pair, Pair, Pair, Pair]
    if (p1[0] === p2[0] && p1[1] === p2[1]) return [[...p1] as [number, number]]
    return Array.from({ length: steps }, (_each, k): [number, number] => {
      const t = k / steps
      const at = (axis: 0 | 1): number => 0.5 * (2 * p1[axis] + (p2[axis] - p0[axis]) * t
        + (2 * p0[axis] - 5 * p1[axis] + 4 * p2[axis] - p3[axis]) * t * t
        + (3 * p1[axis] - p0[axis] - 3 * p2[axis] + p3[axis]) * t * t * t)
      return [at(0), at(1)]
    })
  })
}
type Pair = readonly [number, number]

/** Points of a circle, or of a part of it, angles in rad from the right, upwards. */
export const arc = (x: number, y: number, radius: number, from = 0, to = 2 * Math.PI, steps = 48): [number, number][] =>
  Array.from({ length: steps }, (_, i) => {
    const angle = from + ((to - from) * i) / (steps - 1)
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)]
  })

export const box = (left: number, bottom: number, right: number, top: number): [number, number][] =>
  [[left, bottom], [right, bottom], [right, top], [left, top]]

/**
 * Follows marks through the frames of a clip.
 *
 * No drift: each frame is matched against the patch of the first frame, not against the frame
 * before. Only where the look of a mark changes so much that this no longer holds is a new patch
 * taken, at a place that the old one still found well; its place's uncertainty is carried on, and
 * the first patch is tried again in every later frame.
 */
import { median } from '@core/uncertainty'
import type { Luminance, Px } from '../raster/luminance'
import { refine, type Refined } from './refine'
import { commonShift, cutTemplate, searchNear, searchWide, type Template } from './template'

/** A mark to be followed, in the frame the following starts from. */
export interface StartMark {
  readonly id: string
  readonly at: Px
  /** Radius of its sticker where known, px; sets the size of the patch. */
  readonly radiusPx?: number
}

export type LostWhy = 'leftPicture' | 'noMatch' | 'sameAsOther' | 'twin'

/** One mark in one frame. */
export type Followed =
  | {
      readonly id: string
      readonly kind: 'followed'
      readonly at: Px
      /** Standard uncertainty of each coordinate against the start mark, px. */
      readonly uPx: number
      /** Normalised correlation, to 1. */
      readonly score: number
      /** How many times its patch was renewed on the way here; 0 is the first patch itself. */
      readonly renewed: number
    }
  | { readonly id: string; readonly kind: 'lost'; readonly why: LostWhy }

/** A mark was lost, or found again, in this frame. */
export interface FollowEvent {
  readonly id: string
  readonly frame: number
  readonly timeS: number
  readonly what: LostWhy | 'foundAgain'
}

export interface FollowLimits {
  /** Correlation below which a mark counts as lost. */
  readonly keep: number
  /** Correlation below which a new patch is prepared. */
  readonly renew: number
  /** Search around the expected place, px. */
  readonly nearPx: number
  /** Search where the mark is not where it was expected, px. */
  readonly missPx: number
  /** Search for a lost mark that no other tells of, px. */
  readonly widePx: number
  /** Search in the second frame, when no speed is known yet, for all marks together, px. */
  readonly startPx: Px
  /** How far a mark may have gone another way than its neighbours while it was hidden, px. */
  readonly apartPx: number
}

export const FOLLOW_LIMITS: FollowLimits = {
  keep: 0.7, renew: 0.85, nearPx: 7, missPx: 24, widePx: 72, startPx: { x: 280, y: 60 }, apartPx: 28,
}

/** For a camera on its tripod before a standing car: marks come back from behind hands where springs took them. */
export const LIVE_LIMITS: FollowLimits = { ...FOLLOW_LIMITS, missPx: 48, startPx: { x: 24, y: 60 }, apartPx: 64 }

const DEFAULT_HALF = 12

interface Anchor { readonly template: Template; readonly u: number; readonly renewed: number }

interface Track {
  readonly id: string
  readonly half: number
  readonly first: Anchor
  latest: Anchor | null
  /** Where it was last seen, with the time and the velocity by then. */
  at: Px
  timeS: number
  velocity: Px | null
  lost: boolean
  /** Lost, but other marks tell where it should be. */
  carried: boolean
}

export type StartRefusal = { readonly id: string; readonly why: 'leftPicture' | 'flat' }

export class Follower {
  readonly events: FollowEvent[] = []
  private readonly tracks: Track[] = []
  private frame = 0

  private constructor(private readonly limits: FollowLimits) {}

  /**
   * Starts at a frame with its marks.
   *
   * @returns the follower, or the marks that cannot be followed (at the border, or on a flat patch)
   */
  static start(
    picture: Luminance, timeS: number, marks: readonly StartMark[], limits: FollowLimits = FOLLOW_LIMITS,
  ): { follower: Follower | null; refused: StartRefusal[] } {
    const follower = new Follower(limits)
    const refused: StartRefusal[] = []
    for (const { id, at, radiusPx } of marks) {
      const half = radiusPx === undefined ? DEFAULT_HALF : Math.min(24, Math.max(6, Math.round(1.8 * radiusPx)))
      const template = cutTemplate(picture, at, half)
      if (!template) {
        const rim = half + 1
        const near = at.x < rim || at.y < rim || at.x > picture.width - rim || at.y > picture.height - rim
        refused.push({ id, why: near ? 'leftPicture' : 'flat' })
        continue
      }
      follower.tracks.push({
        id, half, first: { template, u: 0, renewed: 0 }, latest: null, at, timeS, velocity: null, lost: false,
        carried: false,
      })
    }
    return { follower: refused.length === 0 ? follower : null, refused }
  }

  /** Finds every mark in the next frame. Times must rise; they need not be evenly spaced. */
  next(picture: Luminance, timeS: number): Followed[] {
    this.frame += 1
    if (this.frame === 1) this.findStart(picture, timeS)
    const found = this.tracks.map((track) => this.find(picture, timeS, track))
    this.dropDoubles(found)
    this.dropTwins(found, timeS)
    const before = this.tracks.map(({ at }) => at)
    const settled = this.tracks.map((track, i) => this.settle(picture, timeS, track, found[i]!))
    this.carryLost(timeS, before)
    return settled
  }

  /** How far all marks went together in the first step, as their first velocity. */
  private findStart(picture: Luminance, timeS: number): void {
    const middles = this.tracks.map(({ at, first }) =>
      ({ x: at.x - first.template.offset.x, y: at.y - first.template.offset.y }))
    const templates = this.tracks.map(({ first }) => first.template)
    const shift = commonShift(picture, templates, middles, this.limits.startPx)
    if (!shift) return
    for (const track of this.tracks) {
      const step = timeS - track.timeS
      if (step > 0) track.velocity = { x: shift.x / step, y: shift.y / step }
    }
  }

  private find(picture: Luminance, timeS: number, track: Track): Found | LostWhy {
    const step = timeS - track.timeS
    const { velocity } = track
    const expected = velocity
      ? { x: track.at.x + velocity.x * step, y: track.at.y + velocity.y * step }
      : track.at
    const { keep, renew } = this.limits
    // Outside, whatever looks alike nearby is another sticker.
    const margin = track.half + 4
    const inside = expected.x >= margin && expected.y >= margin
      && expected.x <= picture.width - margin && expected.y <= picture.height - margin
    if (!inside) return 'leftPicture'
    const byFirst = this.match(picture, track, track.first, expected)
    if (byFirst && byFirst.score >= renew) return byFirst
    const byLatest = track.latest ? this.match(picture, track, track.latest, expected) : null
    if (byFirst && byFirst.score >= keep) {
      // The first patch still holds: trusted before any renewed one, unless that fits far better.
      if (!byLatest || byLatest.score < byFirst.score + 0.1) return byFirst
    }
    return byLatest && byLatest.score >= keep ? byLatest : 'noMatch'
  }

  private match(picture: Luminance, track: Track, anchor: Anchor, expected: Px): Found | null {
    const { template } = anchor
    const { nearPx, keep } = this.limits
    const known = track.velocity !== null && (!track.lost || track.carried)
    const widePx = known ? this.limits.missPx : this.limits.widePx
    const middle = { x: expected.x - template.offset.x, y: expected.y - template.offset.y }
    const near = track.lost || !track.velocity ? null : searchNear(picture, template, middle, nearPx)
    let refined: Refined | null = null
    if (near && !near.atRim && near.score >= keep - 0.05) refined = refine(picture, template, near)
    if (!refined) {
      const wide = searchWide(picture, template, middle, widePx)
      if (wide && wide.score >= keep - 0.05) refined = refine(picture, template, wide)
    }
    if (!refined) return null
    return {
      at: { x: refined.middle.x + template.offset.x, y: refined.middle.y + template.offset.y },
      score: refined.score, uPx: Math.hypot(refined.uPx, anchor.u), renewed: anchor.renewed,
    }
  }

  /** Two marks cannot lie on the same sticker: the one that fits worse is lost. */
  private dropDoubles(found: (Found | LostWhy)[]): void {
    for (let i = 0; i < found.length; i++) {
      for (let j = 0; j < i; j++) {
        const a = found[i]!
        const b = found[j]!
        if (typeof a === 'string' || typeof b === 'string') continue
        const wereApart = distance(this.tracks[i]!.at, this.tracks[j]!.at) >= 4
        if (!wereApart || distance(a.at, b.at) > 2) continue
        found[a.score < b.score ? i : j] = 'sameAsOther'
      }
    }
  }

  /**
   * What looks like a mark but lies far from where its neighbours went is another thing of the same
   * look. Trusted are those that were found close to where they were expected; where all were hidden,
   * the one that came back nearest to its place. A body on its springs moves against its wheels, so
   * only what lies farther off than that is refused.
   */
  private dropTwins(found: (Found | LostWhy)[], timeS: number): void {
    const steps = this.tracks.map((track, i) => {
      const each = found[i]!
      if (typeof each === 'string') return null
      const step = { x: each.at.x - track.at.x, y: each.at.y - track.at.y }
      const took = timeS - track.timeS
      const way = track.velocity ? { x: track.velocity.x * took, y: track.velocity.y * took } : { x: 0, y: 0 }
      return { step, trusted: !track.lost && distance(step, way) <= this.limits.nearPx + 1 }
    })
    const way = usualWay(steps.flatMap((each) => each ?? []))
    if (!way) return
    steps.forEach((each, i) => {
      if (each && !each.trusted && distance(each.step, way) > this.limits.apartPx) found[i] = 'twin'
    })
  }

  /** A lost mark is expected where the marks still seen would have carried it. */
  private carryLost(timeS: number, before: readonly Px[]): void {
    const ways = this.tracks.flatMap(({ lost, at }, i) =>
      (lost ? [] : [{ x: at.x - before[i]!.x, y: at.y - before[i]!.y }]))
    for (const track of this.tracks) track.carried = track.lost && ways.length > 0
    if (ways.length === 0) return
    const x = ways.reduce((sum, way) => sum + way.x, 0) / ways.length
    const y = ways.reduce((sum, way) => sum + way.y, 0) / ways.length
    for (const track of this.tracks) {
      if (!track.lost) continue
      const step = timeS - track.timeS
      track.at = { x: track.at.x + x, y: track.at.y + y }
      track.timeS = timeS
      if (step > 0) track.velocity = { x: x / step, y: y / step }
    }
  }

  private settle(picture: Luminance, timeS: number, track: Track, found: Found | LostWhy): Followed {
    const { id } = track
    if (typeof found === 'string') {
      if (!track.lost) this.events.push({ id, frame: this.frame, timeS, what: found })
      track.lost = true
      return { id, kind: 'lost', why: found }
    }
    if (track.lost) this.events.push({ id, frame: this.frame, timeS, what: 'foundAgain' })
    const step = timeS - track.timeS
    track.velocity = step > 0 ? { x: (found.at.x - track.at.x) / step, y: (found.at.y - track.at.y) / step } : null
    track.at = found.at
    track.timeS = timeS
    track.lost = false
    const { keep, renew } = this.limits
    if (found.score < renew && found.score >= (keep + renew) / 2) {
      const template = cutTemplate(picture, found.at, track.half)
      if (template) track.latest = { template, u: found.uPx, renewed: found.renewed + 1 }
    }
    return { id, kind: 'followed', ...found }
  }
}

function usualWay(steps: readonly { step: Px; trusted: boolean }[]): Px | null {
  const trusted = steps.filter((each) => each.trusted).map(({ step }) => step)
  if (trusted.length > 0) return { x: median(trusted.map(({ x }) => x)), y: median(trusted.map(({ y }) => y)) }
  const size = ({ step }: { step: Px }): number => Math.hypot(step.x, step.y)
  return steps.length < 2 ? null : steps.reduce((least, each) => (size(each) < size(least) ? each : least)).step
}

const distance = (a: Px, b: Px): number => Math.hypot(a.x - b.x, a.y - b.y)

interface Found { readonly at: Px; readonly score: number; readonly uPx: number; readonly renewed: number }

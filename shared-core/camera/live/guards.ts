/** What stops readings at once: marks lost, the tripod moved, the light changed, frames dropped. */
import { median } from '@core/uncertainty'
import type { Px } from '../raster/luminance'
import type { LiveFrame } from './bench'

export type LiveTrouble =
  | { readonly kind: 'markLost'; readonly markIds: readonly string[] }
  | { readonly kind: 'tripodMoved'; readonly byPx: number }
  | { readonly kind: 'lightChanged'; readonly byShare: number }
  | { readonly kind: 'framesDropped'; readonly perS: number; readonly wantedPerS: number }

/** A mark lost for a shorter time than this is a frame that blurred, s. */
const LOST_S = 0.15
/** Things that stand still are seen to move from here, px: well above what following scatters. */
const MOVED_PX = 1
/** Over which time stillness and frame rate are judged, s. */
const JUDGED_S = 1
/** Change of the mean level that counts as other light, as a share. */
const LIGHT_SHARE = 0.12
/** Frames of a second that may fail to come, as a share. */
const DROPPED_SHARE = 0.3

/**
 * Watches the frames as they come. `fixed` marks stand on bench and ground: where most of them go one
 * way together, the camera moved, not they.
 */
export class Guards {
  private readonly lostSince = new Map<string, number>()
  private readonly offs: { timeS: number; x: number; y: number }[] = []
  private readonly times: number[] = []
  private light: number | null = null
  private usualGapS: number | null = null

  /**
   * @param moving ids of the car's marks
   * @param fixed where the marks that stand still were in the set-up picture
   */
  constructor(private readonly moving: readonly string[], private readonly fixed: ReadonlyMap<string, Px>) {}

  /** Troubles as of this frame. */
  next({ timeS, places, light }: LiveFrame): LiveTrouble[] {
    return [
      ...this.lost(timeS, places), ...this.tripod(timeS, places), ...this.lights(light), ...this.dropped(timeS),
    ]
  }

  /** From now on the light is as it is: the builder has looked. */
  takeLight(): void {
    this.light = null
  }

  private lost(timeS: number, places: LiveFrame['places']): LiveTrouble[] {
    const markIds = this.moving.filter((id) => {
      if (places.get(id)) {
        this.lostSince.delete(id)
        return false
      }
      const since = this.lostSince.get(id) ?? timeS
      this.lostSince.set(id, since)
      return timeS - since >= LOST_S
    })
    return markIds.length > 0 ? [{ kind: 'markLost', markIds }] : []
  }

  private tripod(timeS: number, places: LiveFrame['places']): LiveTrouble[] {
    const away = [...this.fixed].flatMap(([id, { x, y }]) => {
      const now = places.get(id)
      return now ? [{ x: now.x - x, y: now.y - y }] : []
    })
    if (away.length === 0) return []
    this.offs.push({ timeS, x: median(away.map(({ x }) => x)), y: median(away.map(({ y }) => y)) })
    while (this.offs[0]!.timeS < timeS - JUDGED_S) this.offs.shift()
    const byPx = Math.hypot(median(this.offs.map(({ x }) => x)), median(this.offs.map(({ y }) => y)))
    return byPx > MOVED_PX && this.offs.length >= 5 ? [{ kind: 'tripodMoved', byPx }] : []
  }

  private lights(light: number): LiveTrouble[] {
    this.light ??= light
    const byShare = light / Math.max(1, this.light) - 1
    return Math.abs(byShare) > LIGHT_SHARE ? [{ kind: 'lightChanged', byShare }] : []
  }

  private dropped(timeS: number): LiveTrouble[] {
    this.times.push(timeS)
    while (this.times[0]! < timeS - JUDGED_S) this.times.shift()
    const spanS = timeS - this.times[0]!
    if (this.times.length < 6 || spanS < 0.8 * JUDGED_S) return []
    const gaps = this.times.slice(1).map((each, i) => each - this.times[i]!)
    const gapS = median(gaps)
    // The best rate seen is what the camera can do; the light may slow it for good, and then it is said once.
    this.usualGapS = Math.min(this.usualGapS ?? gapS, gapS)
    const perS = (this.times.length - 1) / spanS
    const wantedPerS = 1 / this.usualGapS
    return perS < (1 - DROPPED_SHARE) * wantedPerS ? [{ kind: 'framesDropped', perS, wantedPerS }] : []
  }
}

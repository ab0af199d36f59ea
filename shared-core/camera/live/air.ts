/** A blower run that the camera cuts by itself: air off, on, off, told from where the car stands still. */
import type { Corner } from '@core/schema'
import { windowMean } from '../film/mean'
import type { WindowHeight } from '../film/window'
import type { LiveBench, LiveFrame, LiveHeights } from './bench'
import { calmOver, changeBetween, type Calm } from './calm'
import type { Guards } from './guards'
import { type LiveTrouble } from './guards'

/** A stretch in which the car stood about one place, with the air off or on. */
export interface AirStretch {
  readonly air: 'off' | 'on'
  readonly fromS: number
  readonly toS: number
  readonly heights: Partial<Record<Corner, WindowHeight>>
}

/** `first`: the rest before any air is awaited. `held`: the car stands about one place. `moving`: between two. */
export type AirPhase = 'first' | 'held' | 'moving' | 'stopped'

export interface AirView {
  readonly phase: AirPhase
  readonly air: 'off' | 'on'
  readonly heights: LiveHeights
  readonly troubles: readonly LiveTrouble[]
  /** A stretch that ended in this very frame. */
  readonly ended: AirStretch | null
}

/** The car must stand about one place for as long before the stretch counts, s. */
const HOLD_S = 1.5
/** The last of the trace that stands for "now", s. */
const NOW_S = 0.6
const NOW_FRAMES = 7
/** What is cut off before a move was seen: it was under way by then, s. */
const TRIM_S = 1
/** A move is at least as large, mm, or as many of the u of a mean over `NOW_S`. */
const MOVE = { mm: 0.08, us: 5 }
/** A move must last for as long, s. */
const LASTS_S = 0.3
/** The shortest stretch that becomes a reading, s. */
const LEAST_S = 1.5
/** A place this share of the way back from air to rest counts as rest: friction keeps some. */
const BACK_SHARE = 0.5

export class AirWatch {
  private rest: Calm | null = null
  private blown: Calm | null = null
  private restHeights: Partial<Record<Corner, WindowHeight>> | null = null
  private stretch: { air: 'off' | 'on'; fromS: number; calm: Calm } | null = null
  private movedSinceS: number | null = null
  private notBeforeS = -Infinity
  private count = 0

  /** @param name of the run, unique over the session */
  constructor(private readonly bench: LiveBench, private readonly guards: Guards, private readonly name: string) {}

  next(frame: LiveFrame): AirView {
    const heights = this.bench.push(frame)
    const troubles = this.guards.next(frame)
    const { timeS } = frame
    if (troubles.length > 0) {
      // What was held before the trouble stands; from here on nothing counts until it is gone.
      const ended = this.close(timeS - LASTS_S)
      this.notBeforeS = timeS
      return this.view('stopped', heights, troubles, ended)
    }
    const ended = this.stretch ? this.hold(timeS) : null
    if (!this.stretch) this.seek(timeS)
    const phase = this.stretch ? 'held' : this.rest ? 'moving' : 'first'
    return this.view(phase, heights, troubles, ended)
  }

  /** Ends the stretch in hand, as when the builder is done. */
  finish(timeS: number): AirStretch | null {
    return this.close(timeS)
  }

  private view(
    phase: AirPhase, heights: LiveHeights, troubles: readonly LiveTrouble[], ended: AirStretch | null,
  ): AirView {
    const { timeS } = heights
    const air = this.stretch?.air ?? (this.isNearAir(calmNow(this.bench, timeS)) ? 'on' : 'off')
    return { phase, air, heights, troubles, ended }
  }

  /**
   * Heights of the last `NOW_S` and at rest with their whole budgets, for the number on the wall. Not
   * for every frame: it takes as long as many of them. Null while there is no rest or a mark is not seen.
   */
  readNow(timeS: number): {
    readonly now: Partial<Record<Corner, WindowHeight>>; readonly rest: Partial<Record<Corner, WindowHeight>>
  } | null {
    const rest = this.restNow(timeS) ?? this.restHeights
    const now = rest && this.bench.heightsOver(nowBegin(this.bench), timeS, `${this.name}:now`)
    return rest && now ? { rest, now } : null
  }

  /** While the air is off, rest is where the car stands. */
  private restNow(timeS: number): Partial<Record<Corner, WindowHeight>> | null {
    if (this.stretch?.air !== 'off') return null
    const fromS = Math.max(this.stretch.fromS, timeS - 10)
    if (timeS - fromS < LEAST_S) return null
    return this.bench.heightsOver(fromS, timeS, `${this.name}:rest`)
  }

  private seek(timeS: number): void {
    const fromS = timeS - HOLD_S
    if (fromS < this.notBeforeS) return
    const calm = calmOver(this.bench.between(fromS, timeS), this.bench.corners, fromS, timeS)
    if (!calm) return
    const air = this.airOf(calm)
    if (air === 'off') this.rest = calm
    else this.blown = calm
    this.stretch = { air, fromS: calm.fromS, calm }
    this.movedSinceS = null
  }

  /** The first place is rest; afterwards what lies clearly away from rest is air, up to half of the way back. */
  private airOf(calm: Calm): 'off' | 'on' {
    if (!this.rest) return 'off'
    const { clear } = changeBetween(this.rest, calm, this.bench.corners)
    if (!this.bench.corners.some((corner) => clear[corner])) return 'off'
    if (!this.blown || this.stretchBefore === 'off') return 'on'
    const share = this.awayShare(this.rest, this.blown, calm)
    return share < BACK_SHARE ? 'off' : 'on'
  }

  private stretchBefore: 'off' | 'on' = 'off'

  /** How far a place is on the way from rest to air, 0 to 1, over all corners. */
  private awayShare(rest: Calm, blown: Calm, calm: Calm): number {
    let along = 0
    let whole = 0
    for (const corner of this.bench.corners) {
      const way = blown.meanMm[corner]! - rest.meanMm[corner]!
      along += way * (calm.meanMm[corner]! - rest.meanMm[corner]!)
      whole += way * way
    }
    return whole > 0 ? along / whole : 0
  }

  private isNearAir(now: Calm | null): boolean {
    return now !== null && this.rest !== null && this.blown !== null
      && this.awayShare(this.rest, this.blown, now) > BACK_SHARE
  }

  /** Looks whether the car still stands where the stretch stood; where it does, the stretch's place is renewed. */
  private hold(timeS: number): AirStretch | null {
    const { calm } = this.stretch!
    const now = calmNow(this.bench, timeS)
    if (!now) return null
    const widened = Math.sqrt((calm.toS - calm.fromS) / NOW_S)
    const moved = this.bench.corners.some((corner) =>
      Math.abs(calm.meanMm[corner]! - now.meanMm[corner]!) > Math.max(MOVE.mm, MOVE.us * widened * calm.uMm[corner]!))
    if (!moved) {
      this.movedSinceS = null
      this.creep(timeS)
      return null
    }
    this.movedSinceS ??= timeS
    return timeS - this.movedSinceS >= LASTS_S ? this.close(this.movedSinceS - TRIM_S) : null
  }

  /** A creeping zero is followed, not taken for air: where the car stood up to a second ago is where it stands. */
  private creep(timeS: number): void {
    const toS = timeS - TRIM_S
    const fromS = Math.max(this.stretch!.fromS, toS - 3)
    if (toS - fromS < HOLD_S) return
    const calm = calmOver(this.bench.between(fromS, toS), this.bench.corners, fromS, toS)
    if (calm) this.stretch!.calm = calm
  }

  /** @param toS where the stretch in hand ended */
  private close(toS: number): AirStretch | null {
    const { stretch } = this
    if (!stretch) return null
    this.stretch = null
    this.movedSinceS = null
    this.notBeforeS = toS + TRIM_S
    this.stretchBefore = stretch.air
    if (toS - stretch.fromS < LEAST_S) return null
    this.count += 1
    const heights = this.bench.heightsOver(stretch.fromS, toS, `${this.name}:${this.count}`)
    if (!heights) return null
    if (stretch.air === 'off') this.restHeights = heights
    return { air: stretch.air, fromS: stretch.fromS, toS, heights }
  }
}

const nowBegin = (bench: LiveBench): number => bench.stretchBegin(NOW_S, NOW_FRAMES)

/** Means of the last stretch whether or not it is calm; null where a mark was not seen in five frames. */
function calmNow(bench: LiveBench, toS: number): Calm | null {
  const fromS = nowBegin(bench)
  const frames = bench.between(fromS, toS)
  const meanMm: Partial<Record<Corner, number>> = {}
  const uMm: Partial<Record<Corner, number>> = {}
  for (const corner of bench.corners) {
    const found = windowMean(frames.flatMap(({ timeS, heightsMm }) =>
      (typeof heightsMm[corner] === 'number' ? [{ timeS, value: heightsMm[corner] }] : [])))
    if (!found) return null
    meanMm[corner] = found.mean
    uMm[corner] = found.u
  }
  return { meanMm, uMm, fromS, toS }
}

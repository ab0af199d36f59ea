/** A squat test that the camera walks through: it sees a load laid and the car settled, and takes the reading. */
import type { Corner, Settle } from '@core/schema'
import type { WindowHeight } from '../film/window'
import type { LiveBench, LiveFrame, LiveHeights } from './bench'
import { calmOver, changeBetween, scatterIn, type Calm } from './calm'
import type { Guards } from './guards'
import { type LiveTrouble } from './guards'

/** Which way the car must go for the step in hand: a load laid on lets it down, one taken off lets it up. */
export type ExpectedWay = 'none' | 'down' | 'up'

/**
 * `waiting`: for hands to do the step. `moving`: it happens. `settling`: the car stands still, not yet long
 * enough. `unmoved`: hands were there, but nothing moved the way the step should. `stopped`: a trouble.
 */
export type SquatPhase = 'waiting' | 'moving' | 'settling' | 'unmoved' | 'stopped'

export interface SquatReading {
  readonly heights: Partial<Record<Corner, WindowHeight>>
  readonly fromS: number
  readonly toS: number
}

export interface SquatView {
  readonly phase: SquatPhase
  readonly heights: LiveHeights
  readonly troubles: readonly LiveTrouble[]
  /** A reading taken in this very frame; null in nearly all. */
  readonly taken: SquatReading | null
}

/** How long the car must stand still before a reading is taken, s; longer where the builder bounces it in between. */
export const CALM_S: Readonly<Record<Settle, number>> = { none: 1.2, tap: 2.5, bounce: 3 }

/** A height this far off where the car stood is a hand or a load, mm, or this many of its usual scatter. */
const DISTURBED = { mm: 0.2, scatters: 8 }
/** For as long after the last disturbance nothing is taken, s: hands leave, the body rings. */
const AFTER_S = 0.4
/** A frame's usual scatter before anything was read, mm, and the least it is taken for afterwards. */
const FIRST_SCATTER_MM = 0.06
const LEAST_SCATTER_MM = 0.01
/** A stretch that scatters more than this many times the usual still rings. */
const QUIET = 2.5
/** A car that stands still for as long, s and frames, rests where it is. */
const REST_S = 0.5
const REST_FRAMES = 13
/** How long a disturbance must last, s: one odd frame is none. */
const LASTS_S = 0.08

/**
 * Fed with every frame; asks for nothing. `begin` names the step in hand, `next` takes a frame. A
 * reading is taken once the car was disturbed (the first one excepted), has moved the expected way,
 * and stands still; or at `takeNow`, by key, as soon as it stands still.
 */
export class SquatWatch {
  /** Where the car stood at the last reading, and where it stands still just now. */
  private held: Calm | null = null
  private resting: Calm | null = null
  private way: ExpectedWay = 'none'
  private name = ''
  private disturbedFromS: number | null = null
  private disturbedAtS: number | null = null
  private forced = false
  private taken = true
  private scatterMm = FIRST_SCATTER_MM

  constructor(private readonly bench: LiveBench, private readonly guards: Guards, private readonly calmS: number) {}

  /**
   * @param name of the step, unique over the session
   * @param way how the car will go; `none` takes the reading as soon as the car stands still
   */
  begin(name: string, way: ExpectedWay): void {
    this.name = name
    this.way = way
    this.taken = false
    this.forced = false
    this.disturbedFromS = null
    this.disturbedAtS = null
  }

  /** Takes the reading as soon as the car stands still, whatever was or was not seen before. */
  takeNow(): void {
    this.forced = true
  }

  next(frame: LiveFrame): SquatView {
    const heights = this.bench.push(frame)
    const troubles = this.guards.next(frame)
    const { timeS } = frame
    this.feelFor(heights)
    const stops = troubles.some(({ kind }) => kind !== 'markLost')
    const see = (phase: SquatPhase, taken: SquatReading | null = null): SquatView =>
      ({ phase, heights, troubles, taken })
    if (this.taken || this.name === '') return see(stops ? 'stopped' : 'waiting')
    if (stops) return see('stopped')
    const since = this.disturbedAtS
    const wantsHands = this.way !== 'none' && !this.forced
    if (wantsHands && since === null) return see('waiting')
    if (since !== null && timeS - since < AFTER_S) return see('moving')
    const fromS = Math.max(timeS - this.calmS, since === null ? -Infinity : since + AFTER_S)
    const calm = timeS - fromS >= 0.95 * this.calmS
      ? calmOver(this.bench.between(fromS, timeS), this.bench.corners, fromS, timeS, QUIET * this.scatterMm)
      : null
    if (!calm) return see('settling')
    if (wantsHands && !this.wentTheWay(calm)) {
      // Hands came and went and the car stands as before: wait for hands again.
      this.disturbedAtS = null
      this.disturbedFromS = null
      return see('unmoved')
    }
    const taken = this.bench.heightsOver(calm.fromS, calm.toS, this.name)
    if (!taken) return see('settling')
    this.held = calm
    this.taken = true
    const frames = this.bench.between(calm.fromS, calm.toS)
    this.scatterMm = Math.max(LEAST_SCATTER_MM, scatterIn(frames, this.bench.corners, calm))
    return see('waiting', { heights: taken, fromS: calm.fromS, toS: calm.toS })
  }

  /** Notes when the car was last touched: a mark covered, or a height clearly off where the car stood. */
  private feelFor({ timeS, heightsMm }: LiveHeights): void {
    const rest = this.resting ?? this.held
    this.follow(timeS)
    if (!rest) return
    const limit = Math.max(DISTURBED.mm, DISTURBED.scatters * this.scatterMm)
    const off = this.bench.corners.some((corner) => {
      const now = heightsMm[corner]
      return now === null || now === undefined || Math.abs(now - (rest.meanMm[corner] ?? Number.NaN)) > limit
    })
    if (off) {
      this.disturbedFromS ??= timeS
      if (timeS - this.disturbedFromS >= LASTS_S) this.disturbedAtS = timeS
    } else {
      this.disturbedFromS = null
    }
  }

  /** Once the car stands still somewhere new, that is where further touches are judged from. */
  private follow(timeS: number): void {
    const fromS = this.bench.stretchBegin(REST_S, REST_FRAMES)
    const calm = calmOver(
      this.bench.between(fromS, timeS), this.bench.corners, fromS, timeS, QUIET * this.scatterMm)
    if (calm) this.resting = calm
  }

  private wentTheWay(calm: Calm): boolean {
    if (!this.held) return true
    const { dropMm, clear } = changeBetween(this.held, calm, this.bench.corners)
    const sign = this.way === 'down' ? 1 : -1
    const sum = this.bench.corners.reduce((total, corner) => total + (dropMm[corner] ?? 0), 0)
    return sign * sum > 0 && this.bench.corners.some((corner) => clear[corner] === true)
  }
}

/** Film worlds walked by the bench as the window walks them, and what it stated held to what was true. */
import { AirWatch, CALM_S, dropBetween, SquatWatch, type AirStretch, type SquatReading } from '@core/camera'
import { halfWidth, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { airScript, squatScript, SQUAT_KG } from '../../worlds/film/scripts'
import { drawFilmWorld, filmOf, WHEELBASE_MM, type Drops, type FilmWorld, type Script } from '../../worlds/film/world'
import { benchOf, liveFrame, setUpPicture } from './liveBench'

const SEEN = ['frontLeft', 'rearLeft'] as const
const LOADED_STEPS = 4
const WAYS = SQUAT_KG.map((kg, k) => (k === 0 ? 'none' as const : kg > SQUAT_KG[k - 1]! ? 'down' as const : 'up' as const))

export interface Walked {
  /** Drops compared with the truth, and those whose 95 % interval holds it. */
  readonly count: number
  readonly held: number
  readonly rmsErrorMm: number
  readonly rmsUMm: number
  /** Worlds in which a step or a stretch was not read, or not while it lasted, in words. */
  readonly faults: readonly string[]
}

class Tally {
  readonly faults: string[] = []
  private count = 0
  private held = 0
  private squareError = 0
  private squareU = 0

  add(drop: Uncertain, truthMm: number): void {
    const error = drop.value - truthMm
    this.count += 1
    if (Math.abs(error) <= halfWidth(drop)) this.held += 1
    this.squareError += error ** 2
    this.squareU += standardUncertainty(drop) ** 2
  }

  get told(): Walked {
    const rms = (square: number): number => Math.sqrt(square / this.count)
    return {
      count: this.count, held: this.held, rmsErrorMm: rms(this.squareError), rmsUMm: rms(this.squareU),
      faults: this.faults,
    }
  }
}

/** The true drop at the chassis sticker of a corner: the body is rigid between its axles. */
function dropAt(world: FilmWorld, drops: Drops, corner: (typeof SEEN)[number]): number {
  const { x } = world.spots[corner === 'frontLeft' ? 'frontChassis' : 'rearChassis']
  const share = (x + WHEELBASE_MM / 2) / WHEELBASE_MM
  return drops.front * (1 - share) + drops.rear * share
}

/** Begins the next step once one was read. */
function walkSquat(world: FilmWorld, script: Script, seed: number): SquatReading[] {
  const { bench, guards } = benchOf(setUpPicture(world, seed))
  const watch = new SquatWatch(bench, guards, CALM_S.none)
  const readings: SquatReading[] = []
  watch.begin('step-0', WAYS[0]!)
  for (const frame of filmOf(world, script, seed + 1)) {
    const { taken } = watch.next(liveFrame(frame))
    if (!taken) continue
    readings.push(taken)
    const way = WAYS[readings.length]
    if (way) watch.begin(`step-${readings.length}`, way)
  }
  return readings
}

/** Whole squat tests of so many worlds: drops of the steps of the way up. */
export function walkSquats(worlds: number): Walked {
  const tally = new Tally()
  for (let seed = 1; seed <= worlds; seed++) {
    const world = drawFilmWorld(seed)
    const script = squatScript(world, seed)
    const readings = walkSquat(world, script, 1000 * seed)
    if (readings.length !== SQUAT_KG.length) {
      tally.faults.push(`world ${seed}: ${readings.length} steps read`)
      continue
    }
    readings.forEach(({ fromS, toS }, k) => {
      // After the hands that leant on the body have gone, before the next ones come.
      const own = fromS > script.fromS[k]! + (k === 0 ? -1 : 0.5) && toS < (script.fromS[k + 1] ?? Infinity)
      if (!own) tally.faults.push(`world ${seed}: step ${k} read from ${fromS} to ${toS} s`)
    })
    for (const corner of SEEN) {
      const zero = readings[0]!.heights[corner]!.heightMm
      readings.slice(1, 1 + LOADED_STEPS).forEach(({ heights }, k) =>
        tally.add(dropBetween(zero, heights[corner]!.heightMm), dropAt(world, script.drops[k + 1]!, corner)))
    }
  }
  return tally.told
}

/** Blower runs of so many worlds: the drop in the air. The zero creeps, which off, on, off takes out later. */
export function walkRuns(worlds: number): Walked {
  const tally = new Tally()
  for (let seed = 1; seed <= worlds; seed++) {
    const world = drawFilmWorld(seed)
    const script = airScript(world, seed)
    const ended = stretchesOf(world, script, seed)
    const found = ended.map(({ air }) => air).join(' ')
    if (found !== 'off on off') {
      tally.faults.push(`world ${seed}: ${found}`)
      continue
    }
    const [before, on, after] = ended as [AirStretch, AirStretch, AirStretch]
    const own = before.toS < script.onS[0] && on.fromS > script.onS[0] && on.toS < script.onS[1] + 0.1
      && after.fromS > script.onS[1]
    if (!own) tally.faults.push(`world ${seed}: ${ended.map(({ fromS, toS }) => `${fromS} to ${toS} s`).join(', ')}`)
    for (const corner of SEEN) {
      const drop = dropBetween(before.heights[corner]!.heightMm, on.heights[corner]!.heightMm)
      tally.add(drop, dropAt(world, script.drops, corner))
    }
  }
  return tally.told
}

function stretchesOf(world: FilmWorld, script: Script, seed: number): AirStretch[] {
  const { bench, guards } = benchOf(setUpPicture(world, 500 + seed))
  const watch = new AirWatch(bench, guards, 'run')
  const ended: AirStretch[] = []
  let lastS = 0
  for (const frame of filmOf(world, script, 700 + seed)) {
    const seen = watch.next(liveFrame(frame))
    if (seen.ended) ended.push(seen.ended)
    lastS = frame.timeS
  }
  const last = watch.finish(lastS)
  return last ? [...ended, last] : ended
}

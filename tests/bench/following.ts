/** How long a frame of 1280 x 720 takes the live bench: marks followed, heights, guards, the walk of a squat test. */
import { CALM_S, Follower, LIVE_LIMITS, SquatWatch, type Luminance } from '@core/camera'
import { benchOf, setUpPicture } from '../unit/camera/liveBench'
import { drawnFrames } from '../worlds/film/drawn'
import { drawFilmWorld, type Script } from '../worlds/film/world'

/** Time of a frame at 60 a second, s. */
export const FRAME_S = 1 / 60
const WORLD = 4
const LASTS_S = 2
const CAR = ['fronthub', 'frontchassis', 'rearhub', 'rearchassis']

interface FollowTimes {
  /** Processor seconds of each frame: four marks of the car followed, and all eight with all that is done with them. */
  readonly four: number[]
  readonly whole: number[]
}

/** A car that nods by two millimetres, two times a second; its film may be looped. */
export const nods: Script = {
  lastsS: LASTS_S, shiverAt: () => 0, hiddenAt: () => [],
  restAt: (timeS) => ({ front: 1 + Math.sin(4 * Math.PI * timeS), rear: 1 - Math.sin(4 * Math.PI * timeS) }),
}

export function followTimes(): FollowTimes {
  const world = drawFilmWorld(WORLD, 1280, 60)
  const picture = setUpPicture(world, 1)
  const frames = Array.from(drawnFrames(world, nods, 1), (data): Luminance =>
    ({ width: 1280, height: 720, data: data.slice() }))
  const startOf = (ids: readonly string[] | null) => picture.marks.filter(({ id }) => !ids || ids.includes(id))
    .map(({ id, at }) => ({ id, at: { x: at.xPx, y: at.yPx } }))
  return { four: walk(frames, startOf(CAR), false), whole: walk(frames, startOf(null), true) }

  function walk(films: readonly Luminance[], starts: ReturnType<typeof startOf>, reads: boolean): number[] {
    const { follower } = Follower.start(films[0]!, -1, starts, LIVE_LIMITS)
    if (!follower) throw new Error('the marks cannot be followed')
    const { bench, guards } = benchOf(picture)
    const watch = new SquatWatch(bench, guards, CALM_S.none)
    watch.begin('zero', 'none')
    return films.map((frame, i) => {
      // Time of the processor: what else the machine does is not the bench's.
      const began = process.cpuUsage()
      const places = new Map(follower.next(frame, i * FRAME_S).map((each, k) =>
        [starts[k]!.id, each.kind === 'followed' ? each.at : null]))
      if (reads) watch.next({ timeS: i * FRAME_S, places, light: 120 })
      const { user, system } = process.cpuUsage(began)
      return (user + system) / 1e6
    })
  }
}

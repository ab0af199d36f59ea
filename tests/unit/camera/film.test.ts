/** Following, averaging and timing. */
import {
  bracketDrop, crossingOf, Follower, FRAME_TIME_U_S, passOf, traceOf, windowHeight, windowMean,
  type FramePoints, type Followed,
} from '@core/camera'
import {
  exact, fromSource, halfWidth, known, standardUncertainty, studentQuantile, type Source,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { CLIP_CAMERA, clipFrame, clipPlaces, type ClipKey } from '../../synthetic/clip'
import { drawFrom } from '../../synthetic/random'
import type { Gray } from '../../synthetic/scene'
import { blank, carMark, mark, still, stickerPicture } from './pictures'

const placeOf = (followed: Followed): { x: number; y: number } => {
  if (followed.kind === 'lost') throw new Error(`lost: ${followed.why}`)
  return followed.at
}

describe('follower', () => {
  const frames = Array.from({ length: 60 }, (_, i) => {
    const at = { x: 60 + 0.37 * i, y: 60 + 6 * Math.sin(i / 7) }
    return { at, timeS: i / 50, picture: stickerPicture(at, { seed: i + 1 }) }
  })
  const started = () => Follower.start(frames[0]!.picture, 0, [{ id: 'a', at: frames[0]!.at, radiusPx: 6 }]).follower!

  it('stays within 0.05 px of the truth from the first frame to the last', () => {
    const follower = started()
    const off = frames.slice(1).map(({ at, picture, timeS }) => {
      const found = placeOf(follower.next(picture, timeS)[0]!)
      return Math.hypot(found.x - at.x, found.y - at.y)
    })
    expect(Math.sqrt(off.reduce((sum, each) => sum + each ** 2, 0) / off.length)).toBeLessThan(0.03)
    const late = off.slice(-15).reduce((sum, each) => sum + each, 0) / 15
    expect(late).toBeLessThan(0.05)
    expect(follower.events).toEqual([])
  })

  it('says in which frame a mark was lost, and when it was found again', () => {
    const follower = started()
    frames.slice(1).forEach(({ picture, timeS }, i) => follower.next(i > 19 && i < 25 ? blank(120) : picture, timeS))
    expect(follower.events).toEqual([
      { id: 'a', frame: 21, timeS: 0.42, what: 'noMatch' }, { id: 'a', frame: 26, timeS: 0.52, what: 'foundAgain' },
    ])
  })

  it('says that a mark left the picture', () => {
    const way = (i: number) => ({ x: 130 + 2 * i, y: 60 })
    const { follower } = Follower.start(stickerPicture(way(0)), 0, [{ id: 'a', at: way(0), radiusPx: 6 }])
    for (let i = 1; i < 14; i++) follower!.next(stickerPicture(way(i), { seed: i }), i / 50)
    expect(follower!.events.map(({ what }) => what)).toEqual(['leftPicture'])
  })

  it('holds on when the light changes, and renews its patch when the sticker fades into its card', () => {
    const at = { x: 80.4, y: 60.2 }
    const base = stickerPicture(at)
    const { follower } = Follower.start(base, 0, [{ id: 'a', at, radiusPx: 6 }])
    const dim = { ...base, data: base.data.map((level) => 20 + level * 0.5) }
    const found = follower!.next(dim, 0.02)[0]!
    expect(placeOf(found).x).toBeCloseTo(at.x, 1)
    expect(found).toMatchObject({ kind: 'followed', renewed: 0 })
  })

  it('does not drift when the picture blurs slowly: late frames are matched to a patch whose u is carried on', () => {
    const still0 = { x: 80.4, y: 60.2 }
    const { follower } = Follower.start(stickerPicture(still0), 0, [{ id: 'a', at: still0, radiusPx: 6 }])
    const off: number[] = []
    for (let i = 1; i <= 40; i++) {
      const picture = stickerPicture(still0, { seed: i, smear: i / 2 })
      const [found] = follower!.next(picture, i / 50)
      if (found!.kind === 'lost') continue
      off.push(Math.hypot(found!.at.x - still0.x, found!.at.y - still0.y))
      expect(found!.uPx).toBeGreaterThan(0)
    }
    expect(off.length).toBeGreaterThan(20)
    expect(Math.max(...off)).toBeLessThan(0.4)
  })

  it('keeps two stickers of one kind apart', () => {
    const both = (i: number): Gray => {
      const a = stickerPicture({ x: 50 + 0.6 * i, y: 60 }, { radius: 4, seed: i + 1 })
      const b = stickerPicture({ x: 75 + 0.6 * i, y: 60 }, { radius: 4, seed: i + 1 })
      const split = Math.round(62.5 + 0.6 * i)
      return { ...a, data: a.data.map((level, k) => (k % 160 < split ? level : b.data[k]!)) }
    }
    const marks = [{ id: 'a', at: { x: 50, y: 60 }, radiusPx: 4 }, { id: 'b', at: { x: 75, y: 60 }, radiusPx: 4 }]
    const { follower } = Follower.start(both(0), 0, marks)
    for (let i = 1; i <= 30; i++) {
      const [a, b] = follower!.next(both(i), i / 50).map(placeOf)
      expect(a!.x).toBeCloseTo(50 + 0.6 * i, 0)
      expect(b!.x).toBeCloseTo(75 + 0.6 * i, 0)
    }
  })

  it('finds a car that moves farther than its stickers lie apart, and says when each leaves the picture', () => {
    const camera = { ...CLIP_CAMERA, widthPx: 640, heightPx: 360, focalPx: 575 }
    const truth = { frontMm: () => 30, rearMm: () => 34, alongMm: (s: number) => 6000 * (s - 0.01) }
    const ids = ['frontHub', 'frontChassis', 'rearHub', 'rearChassis'] as const
    const start = clipPlaces(truth, 0, camera)
    const marks = ids.map((id) => ({ id, at: start[id], radiusPx: 4 }))
    const { follower } = Follower.start(clipFrame(truth, 0, 2, camera), 0, marks)
    for (let i = 1; i <= 5; i++) {
      const now = clipPlaces(truth, i / 120, camera)
      follower!.next(clipFrame(truth, i / 120, 2, camera), i / 120).forEach((each) => {
        if (each.kind === 'lost') return
        const truly = now[each.id as ClipKey]
        expect(Math.hypot(each.at.x - truly.x, each.at.y - truly.y)).toBeLessThan(0.3)
      })
    }
    expect(follower!.events.every(({ what }) => what === 'leftPicture')).toBe(true)
    expect(follower!.events.map(({ id }) => id).slice(0, 1)).toEqual(['rearHub'])
  })

  it('is not fooled by a twin when marks that were hidden come back: it would lie elsewhere than its neighbour', () => {
    // A hand covers both; then the right one is seen again, and of the left one only its like, 40 px below.
    const left = stickerPicture({ x: 50, y: 40 }, { radius: 4, seed: 3 })
    const right = stickerPicture({ x: 110, y: 40 }, { radius: 4, seed: 3 })
    const twin = stickerPicture({ x: 50, y: 80 }, { radius: 4, seed: 3 })
    const joined = (a: Gray, b: Gray): Gray =>
      ({ ...a, data: a.data.map((level, k) => (k % 160 < 80 ? level : b.data[k]!)) })
    const marks = [{ id: 'a', at: { x: 50, y: 40 }, radiusPx: 4 }, { id: 'b', at: { x: 110, y: 40 }, radiusPx: 4 }]
    const { follower } = Follower.start(joined(left, right), 0, marks)
    for (let i = 1; i <= 4; i++) follower!.next(joined(left, right), i / 30)
    for (let i = 5; i <= 8; i++) follower!.next(blank(118), i / 30)
    for (let i = 9; i <= 14; i++) {
      const found = follower!.next(joined(twin, right), i / 30)
      expect(found[0]).toMatchObject({ kind: 'lost', why: i === 9 ? 'twin' : 'noMatch' })
      expect(placeOf(found[1]!).x).toBeCloseTo(110, 0)
    }
  })

  it('expects a hidden mark where the others carry it', () => {
    const camera = { ...CLIP_CAMERA, widthPx: 640, heightPx: 360, focalPx: 575 }
    const truth = { frontMm: () => 30, rearMm: () => 34, alongMm: (s: number) => 1000 * (s - 0.08) }
    const ids = ['frontHub', 'frontChassis'] as const
    const start = clipPlaces(truth, 0, camera)
    const { follower } = Follower.start(
      clipFrame(truth, 0, 2, camera), 0, ids.map((id) => ({ id, at: start[id], radiusPx: 4 })),
    )
    let last: Followed[] = []
    for (let i = 1; i <= 20; i++) {
      const frame = clipFrame(truth, i / 120, 2, camera)
      const { frontHub } = clipPlaces(truth, i / 120, camera)
      if (i >= 5 && i < 14) hide(frame, frontHub, 10)
      last = follower!.next(frame, i / 120)
    }
    const said = follower!.events.map(({ id, what }) => `${id} ${what}`)
    expect(said).toEqual(['frontHub noMatch', 'frontHub foundAgain'])
    const truthAt = clipPlaces(truth, 20 / 120, camera).frontHub
    expect(Math.abs(placeOf(last[0]!).x - truthAt.x)).toBeLessThan(0.2)
  })

  it('refuses to start on nothing or at the border, and says which mark', () => {
    expect(Follower.start(blank(100), 0, [{ id: 'a', at: { x: 80, y: 60 } }]))
      .toEqual({ follower: null, refused: [{ id: 'a', why: 'flat' }] })
    expect(Follower.start(frames[0]!.picture, 0, [{ id: 'b', at: { x: 3, y: 60 } }]))
      .toEqual({ follower: null, refused: [{ id: 'b', why: 'leftPicture' }] })
  })
})

/** Covers a place with an even patch, as a pole between camera and car would. */
function hide({ width, data }: Gray, { x, y }: { x: number; y: number }, half: number): void {
  for (let j = Math.round(y) - half; j <= y + half; j++) {
    data.fill(90, j * width + Math.round(x) - half, j * width + Math.round(x) + half)
  }
}

describe('mean of a window', () => {
  /** AR(1) with innovation such that its own sd is 1. */
  const series = (n: number, phi: number, seed: number) => {
    const draw = drawFrom(seed)
    let last = draw.normal(1)
    return Array.from({ length: n }, (_, i) => {
      last = phi * last + draw.normal(Math.sqrt(1 - phi * phi))
      return { timeS: i / 50, value: last }
    })
  }

  it.each([[0, 200], [0.6, 200], [0.9, 400]])(
    'of an AR(1) series with coefficient %d holds the true mean in about 95 %% of its intervals', (phi, n) => {
      const trials = 600
      let inside = 0
      let square = 0
      for (let seed = 1; seed <= trials; seed++) {
        const { mean, u, dof } = windowMean(series(n, phi, seed))!
        if (Math.abs(mean) <= studentQuantile(0.975, dof) * u) inside += 1
        square += u * u
      }
      expect(inside / trials).toBeGreaterThan(0.915)
      expect(inside / trials).toBeLessThan(0.985)
      // Variance of the mean of an AR(1) series: (1 + phi) / (1 - phi) / n for large n (any time-series text).
      const ratio = square / trials / ((1 + phi) / (1 - phi) / n)
      expect(ratio).toBeGreaterThan(0.8)
      expect(ratio).toBeLessThan(1.35)
    },
  )

  it('weighs by time, not by frame, where the frame rate is uneven', () => {
    const values = [0, 0.01, 0.02, 0.03, 0.04, 0.5, 1].map((timeS) => ({ timeS, value: timeS }))
    expect(windowMean(values)!.mean).toBeGreaterThan(0.4)
    const even = Array.from({ length: 11 }, (_, i) => ({ timeS: i, value: i }))
    expect(windowMean(even)!.mean).toBeCloseTo(5, 10)
    expect(windowMean(even)!.slope).toBeCloseTo(1, 10)
  })

  it('tells nothing from four frames, and no scatter from a constant', () => {
    expect(windowMean([1, 2, 3, 4].map((timeS) => ({ timeS, value: 1 })))).toBeNull()
    expect(windowMean([1, 2, 3, 4, 5].map((timeS) => ({ timeS, value: 7 })))).toMatchObject({ u: 0, count: 5 })
  })
})

const SCALE = [mark('scaleStart', 100, 200), mark('scaleEnd', 200, 200)]

describe('windows of a trace', () => {
  const picture = still(
    [...SCALE, mark('ground', 100, 700), mark('ground', 900, 700),
      carMark('hub', 300, 600, { frameS: 0, uPx: 0.3 }), carMark('chassis', 400, 500, { frameS: 0, uPx: 0.3 })],
    { kind: 'clip', scale: { kind: 'length', lengthMm: { value: 50, u: 0.25 }, distances: null } },
  )
  const draw = drawFrom(3)
  const frames = Array.from({ length: 300 }, (_, i): FramePoints => {
    const timeS = i / 50
    const on = timeS >= 2 && timeS < 4
    const creep = 0.5 * timeS
    const y = 500 + (on ? 8 : 0) + creep + draw.normal(0.1)
    return { timeS, hub: { x: 300, y: 600 + draw.normal(0.1) }, chassis: i === 50 ? null : { x: 400, y } }
  })
  const trace = traceOf(picture, 'frontLeft', 'hubToChassis', 0, frames)
  if (trace.kind !== 'trace') throw new Error('no trace')
  const [off1, on, off2] = [[0.2, 1.8], [2.2, 3.8], [4.2, 5.8]].map(([from, to], i) =>
    windowHeight(trace, from!, to!, `w${i}`, 'line')!)

  it('has the height in each frame, none where a mark was lost', () => {
    expect(trace.points[0]!.heightMm).toBeCloseTo(50, 0)
    expect(trace.points[50]!.heightMm).toBeNull()
    expect(off1!.lost).toBe(1)
  })

  it('brackets the drop without the creep, and the marks made once cancel', () => {
    const drop = bracketDrop(off1!, on!, off2!)
    expect(Math.abs(drop.value - 4)).toBeLessThan(halfWidth(drop))
    const held = windowHeight(trace, 0.2, 1.8, 'w', 'mean')!
    expect(held.mean.u).toBeGreaterThan(2 * off1!.mean.u)
    expect(off1!.mean.slope).toBeCloseTo(-0.25, 1)
    // Marks of 0.3 px would be 0.2 mm; what is left is the scatter and the scale's 0.5 % of the drop.
    expect(standardUncertainty(drop)).toBeLessThan(0.04)
    expect(standardUncertainty(off1!.heightMm)).toBeGreaterThan(0.2)
  })

  it('needs two times for its zero and five frames for a window', () => {
    expect(() => bracketDrop(off1!, on!, off1!)).toThrow(RangeError)
    expect(windowHeight(trace, 0, 0.05, 'short')).toBeNull()
  })

  it('says what is missing', () => {
    expect(traceOf(picture, 'rearLeft', 'hubToChassis', 0, frames)).toEqual({ kind: 'lacking', lack: 'chassis' })
    expect(traceOf(picture, 'frontLeft', 'hubToChassis', 1, frames)).toEqual({ kind: 'lacking', lack: 'chassis' })
  })
})

describe('crossing a gate', () => {
  const source: Source = known('radius', 'gate')

  it('is exact for steady speed at an uneven frame rate', () => {
    const times = [0, 0.02, 0.035, 0.07, 0.08, 0.11, 0.13, 0.16]
    const pass = times.map((timeS) => ({ timeS, alongMm: -200 + 4000 * timeS }))
    const found = crossingOf(pass, exact(100), 'a')!
    expect(found.timeS.value).toBeCloseTo(0.075, 12)
    expect(found.alongMmS).toBeCloseTo(4000, 6)
    expect(standardUncertainty(found.timeS)).toBeCloseTo(FRAME_TIME_U_S / Math.sqrt(6), 9)
  })

  it('is exact under acceleration, and backwards', () => {
    const pass = Array.from({ length: 12 }, (_, i) => i / 60)
      .map((timeS) => ({ timeS, alongMm: 500 - 3000 * timeS - 2000 * timeS ** 2 }))
    const found = crossingOf(pass, exact(200), 'a')!
    expect(found.timeS.value).toBeCloseTo((-3000 + Math.sqrt(9e6 + 4 * 2000 * 300)) / 4000, 10)
    expect(found.alongMmS).toBeLessThan(0)
  })

  it('carries the gate mark\'s own uncertainty as time', () => {
    const pass = Array.from({ length: 12 }, (_, i) => ({ timeS: i / 60, alongMm: 3000 * (i / 60) }))
    const found = crossingOf(pass, fromSource(250, 3, source), 'a')!
    expect(found.timeS.parts.find((part) => part.source.id === 'gate')!.contribution).toBeCloseTo(0.001, 9)
  })

  it('is not told where the gate was not passed, or only just', () => {
    const pass = Array.from({ length: 12 }, (_, i) => ({ timeS: i / 60, alongMm: 3000 * (i / 60) }))
    expect(crossingOf(pass, exact(900), 'a')).toBeNull()
    expect(crossingOf(pass, exact(10), 'a')).toBeNull()
    expect(crossingOf(pass.slice(0, 3), exact(60), 'a')).toBeNull()
  })
})

describe('a pass between gates', () => {
  // 0.5 mm per px; the car crosses 900 px in 0.3 s: 1.5 m/s.
  const gates = { distanceMm: { value: 200, u: 1 }, distanceFarMm: { value: 325, u: 1 } }
  const clip = (gateMarks: number[], more = {}) => still(
    [...SCALE, mark('ground', 100, 700), mark('ground', 900, 700), carMark('chassis', 50, 500, { frameS: 0 }),
      ...gateMarks.map((x) => mark('gate', x, 700, { uPx: 0.5 }))],
    { kind: 'clip', gates, ...more },
  )
  const frames = (back: boolean): FramePoints[] => Array.from({ length: 19 }, (_, i) => {
    const x = 50 + 3000 * (i / 60)
    return { timeS: i / 60, hub: null, chassis: { x: back ? 1000 - x : x, y: 500 } }
  })
  const pass = (gateMarks: number[], back = false, more = {}) => {
    const picture = clip(gateMarks, more)
    const trace = traceOf(picture, 'frontLeft', 'groundToChassis', 0, frames(back))
    if (trace.kind !== 'trace') throw new Error('no trace')
    return passOf(trace, picture, 'p')
  }

  it('has the speed of distance over time, with the timing a state keeps', () => {
    const found = pass([200, 600])
    if (found.kind !== 'pass') throw new Error(found.lack)
    expect(found.speedMs.value).toBeCloseTo(1.5, 9)
    expect(found.timing).toMatchObject({ distanceMm: { value: 200, u: 1 }, thirdS: null, distanceFarMm: null })
    expect(found.timing.firstS).toBeCloseTo(0.05, 9)
    expect(found.way).toBe('rightward')
    // Half a px is 0.25 mm, passed in 0.167 ms at 1.5 m/s.
    expect(found.timing.uTimeS).toBeCloseTo(Math.hypot(0.25 / 1500, FRAME_TIME_U_S / Math.sqrt(6)), 6)
    const rel = Math.hypot(1 / 200, (Math.SQRT2 * found.timing.uTimeS) / (200 / 1500))
    expect(standardUncertainty(found.speedMs) / 1.5).toBeCloseTo(rel, 5)
  })

  it('takes three gates from either side', () => {
    const found = pass([200, 600, 850], true)
    if (found.kind !== 'pass') throw new Error(found.lack)
    expect(found.way).toBe('leftward')
    expect(found.timing.distanceMm.value).toBe(125)
    expect(found.timing.distanceFarMm!.value).toBe(325)
    expect(found.speedMs.value).toBeCloseTo(1.5, 9)
    expect(found.timing.thirdS! - found.timing.firstS).toBeCloseTo(325 / 1500, 9)
  })

  it('says what is missing', () => {
    expect(pass([200])).toEqual({ kind: 'lacking', lack: 'gates' })
    expect(pass([200, 600], false, { gates: undefined })).toEqual({ kind: 'lacking', lack: 'distance' })
    expect(pass([200, 990])).toEqual({ kind: 'lacking', lack: 'crossing' })
  })
})

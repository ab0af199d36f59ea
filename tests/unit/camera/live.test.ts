/** The bench that reads itself, over simulated films whose code and formulas are not the product's. */
import { CALM_S, SquatWatch, type LiveTrouble } from '@core/camera'
import { describe, expect, it } from 'vitest'
import { drawFilmWorld, filmOf, type Script } from '../../worlds/film/world'
import { benchOf, liveFrame, setUpPicture } from './liveBench'
import { walkRuns, walkSquats } from './liveWalks'

/** Worlds that are walked here; `npm run study:live` walks a hundred of each. */
const WORLDS = 20

describe('a squat test that reads itself', () => {
  it('takes every step of its worlds once, while its own load lies, and its drops are covered', () => {
    const { count, held, faults, rmsErrorMm, rmsUMm } = walkSquats(WORLDS)
    expect(faults).toEqual([])
    expect(count).toBe(8 * WORLDS)
    expect(held / count).toBeGreaterThanOrEqual(0.93)
    // Not by being idle: the stated u is within a few times what the errors are.
    expect(rmsUMm / rmsErrorMm).toBeLessThan(4)
  })

  it('waits where hands came and nothing moved, and takes it by key', () => {
    const world = drawFilmWorld(3)
    const still: Script = {
      lastsS: 14, restAt: () => ({ front: 0, rear: 0 }), shiverAt: () => 0,
      hiddenAt: (timeS) => (timeS > 4 && timeS < 4.8 ? ['frontChassis'] : []),
    }
    const { bench, guards } = benchOf(setUpPicture(world, 5))
    const watch = new SquatWatch(bench, guards, CALM_S.none)
    watch.begin('zero', 'none')
    const taken: number[] = []
    const phases = new Set<string>()
    let pressed = false
    for (const frame of filmOf(world, still, 6)) {
      if (frame.timeS > 10 && !pressed) {
        watch.takeNow()
        pressed = true
      }
      const seen = watch.next(liveFrame(frame))
      phases.add(seen.phase)
      if (seen.taken) {
        taken.push(seen.taken.toS)
        if (taken.length < 2) watch.begin('load', 'down')
      }
    }
    expect(phases).toContain('unmoved')
    expect(taken).toHaveLength(2)
    expect(taken[0]).toBeLessThan(3)
    expect(taken[1]).toBeGreaterThan(10)
  })
})

describe('a blower run that cuts itself', () => {
  it('finds off, on, off in its worlds, and the drop in the air is covered', () => {
    const { count, held, faults } = walkRuns(WORLDS)
    expect(faults).toEqual([])
    expect(count).toBe(2 * WORLDS)
    expect(held / count).toBeGreaterThanOrEqual(0.93)
  })
})

describe('guards', () => {
  const quiet: Script = {
    lastsS: 6, restAt: () => ({ front: 0, rear: 0 }), shiverAt: () => 0, hiddenAt: () => [],
  }
  const troublesOf = (script: Script): LiveTrouble['kind'][] => {
    const world = drawFilmWorld(8)
    const { bench, guards } = benchOf(setUpPicture(world, 9))
    const watch = new SquatWatch(bench, guards, CALM_S.none)
    watch.begin('zero', 'none')
    const kinds = new Set<LiveTrouble['kind']>()
    for (const frame of filmOf(world, script, 10)) {
      watch.next(liveFrame(frame)).troubles.forEach(({ kind }) => kinds.add(kind))
    }
    return [...kinds]
  }

  it('say nothing of a quiet bench', () => {
    expect(troublesOf(quiet)).toEqual([])
  })

  it.each<[LiveTrouble['kind'], Partial<Script>]>([
    ['markLost', { hiddenAt: (timeS) => (timeS > 3 ? ['rearHub'] : []) }],
    ['tripodMoved', { slipAt: (timeS) => (timeS > 3 ? { x: 4, y: 2 } : { x: 0, y: 0 }) }],
    ['lightChanged', { lightAt: (timeS) => (timeS > 3 ? 90 : 120) }],
    ['framesDropped', { dropsFrame: (timeS) => timeS > 2 && Math.round(timeS * 30) % 2 === 1 }],
  ])('say %s, and nothing else', (kind, change) => {
    expect(troublesOf({ ...quiet, ...change })).toEqual([kind])
  })

  it('stop a reading: none is taken while the tripod is elsewhere', () => {
    const world = drawFilmWorld(8)
    const { bench, guards } = benchOf(setUpPicture(world, 9))
    const watch = new SquatWatch(bench, guards, CALM_S.none)
    watch.begin('zero', 'none')
    const moved: Script = { ...quiet, slipAt: (timeS) => (timeS > 0.2 ? { x: 5, y: 0 } : { x: 0, y: 0 }) }
    const taken = [...filmOf(world, moved, 11)].map((frame) => watch.next(liveFrame(frame)).taken).filter(Boolean)
    expect(taken).toEqual([])
  })
})

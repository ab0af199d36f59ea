/** What the benchmark drives: twenty coasts of a thousand speeds each, drawn by the tests' world, and a long course. */
import type { CoastInput, CoastSettings } from '@core/drag'
import type { CourseAsked, Segment, UncertainCar } from '@core/course'
import { fromSource, known, type Uncertain } from '@core/uncertainty'
import { coastDown, normals, uniforms, type CoastWorld } from '../worlds/coast'

const COASTS = 20
const POINTS = 1000
const WORLD: CoastWorld = {
  massKg: 1.5, turningKg: 0.075, rollingCoefficient: 0.06, dragAreaM2: 0.012, liftAreaM2: 0.02, airKgM3: 1.2,
  windMs: 0.8, gustMs: 0, rise: 0.002,
}

export const COAST_SETTINGS: CoastSettings = {
  gravityMs2: 9.80665, rotatingShare: 0.05, windMs: { value: 0, u: 3 }, slope: { value: 0, u: 0.02 },
}

/** Speeds of each coast between the world's own steps, by a straight line from one to the next. */
export function longCoasts(): CoastInput[] {
  const random = normals(uniforms(11))
  return Array.from({ length: COASTS }, (_, i): CoastInput => {
    const sense = i % 2 === 0 ? 1 : -1
    const drawn = coastDown(WORLD, sense, WORLD.windMs, 15 + 0.2 * (i % 4), 7.7)
    const endS = drawn.at(-1)!.t
    const tS = Array.from({ length: POINTS }, (__, k) => (k * endS) / (POINTS - 1))
    let at = 0
    const vMs = tS.map((t) => {
      while (at < drawn.length - 2 && drawn[at + 1]!.t < t) at++
      const [one, next] = [drawn[at]!, drawn[at + 1]!]
      return one.v + ((t - one.t) / (next.t - one.t)) * (next.v - one.v) + 0.1 * random()
    })
    return {
      id: `coast-${i}`, configurationId: 'plain', sense, massKg: 1.5, densityKgM3: 1.2, uSpeedMs: null, uTimeS: 0,
      data: { kind: 'speeds', tS, vMs },
    }
  })
}

const of = (value: number, relativeU: number, id: string): Uncertain =>
  fromSource(value, value * relativeU, known('chassis', id))

/** One set-up on thirty pieces, straights and corners by turns. */
export const LONG_COURSE: CourseAsked = {
  courseId: 'long', name: 'long', launchM: 10, gravityMs2: 9.80665,
  segments: Array.from({ length: 30 }, (_, i): Segment => (i % 2 === 0
    ? { id: `${i}`, kind: 'straight', lengthM: 8 + (i % 5) * 4 }
    : { id: `${i}`, kind: 'corner', radiusM: 3 + (i % 4), turnDeg: 60 + 15 * (i % 7) })),
}
export const LAPPING: UncertainCar = {
  configurationId: 'plain', massKg: of(1.5, 0.002, 'm'), rotatingShare: of(0.05, 0.2, 'turning'),
  gripMs2: of(13, 0.02, 'grip'), sensitivity: of(0.15, 0.3, 's'), claM2: of(0.03, 0.04, 'cla'), cdaM2: of(0.012, 0.03, 'cda'),
  rollingShare: of(0.05, 0.05, 'rolling'), densityKgM3: of(1.2, 0.003, 'air'), powerW: of(150, 0.05, 'power'),
  drivenShare: 1, mostLoadN: Infinity, boundOnly: null,
}

/** Courses driven by tests/worlds (kinematics alone) and read back from speed and lateral acceleration or yaw rate. */
import { describe, expect, it } from 'vitest'
import { courseFromLog, type CourseFound, type CourseLog } from '@core/course'
import { driveRound, type Piece } from '../../worlds/circuit'
import { normals, uniforms } from '../../worlds/coast'

const arc = (radiusM: number, turnDeg: number): Piece =>
  ({ lengthM: (radiusM * Math.abs(turnDeg) * Math.PI) / 180, bend: Math.sign(turnDeg) / radiusM })
const straight = (lengthM: number): Piece => ({ lengthM, bend: 0 })

/** Turns by 360 degrees in all, one corner the other way. */
const YARD = [
  straight(34), arc(5, 180), straight(12), arc(9, -60), straight(10), arc(6, 150), straight(8), arc(12, 90),
  straight(9),
]
const OVAL = [straight(30), arc(6, 180), straight(30), arc(6, 180)]
const EIGHT = [straight(16), arc(5, 270), straight(16), arc(5, -270)]

function found(
  pieces: readonly Piece[], kind: CourseLog['kind'], laps = 3, sensor = { zero: 0.4, noise: 0.8, speedNoise: 0.1 },
): CourseFound {
  const shown = driveRound(pieces, laps, 50, sensor, normals(uniforms(5)))
  const turning = kind === 'lateral' ? shown.lateral : shown.yaw
  const course = courseFromLog({ tS: shown.t, vMs: shown.v, turning, kind })
  if ('none' in course) throw new Error(course.none)
  return course
}

const radii = ({ segments }: CourseFound): number[] => segments.flatMap((each) => (each.kind === 'corner' ? [each.radiusM] : []))
const turns = ({ segments }: CourseFound): number[] => segments.flatMap((each) => (each.kind === 'corner' ? [each.turnDeg] : []))
const straights = ({ segments }: CourseFound): number[] => segments.flatMap((each) => (each.kind === 'straight' ? [each.lengthM] : []))
const lengthOf = ({ segments }: CourseFound): number => segments.reduce((sum, each) =>
  sum + (each.kind === 'straight' ? each.lengthM : (each.radiusM * each.turnDeg * Math.PI) / 180), 0)
const near = (read: readonly number[], true_: readonly number[], by: number): void => {
  expect(read).toHaveLength(true_.length)
  read.forEach((each, i) => expect(Math.abs(each - true_[i]!), `${each} for ${true_[i]}`).toBeLessThan(by * Math.max(1, true_[i]!)))
}

describe.each(['lateral', 'yawRate'] as const)('a course from a log with %s', (kind) => {
  it('gives radii, turns and straights of a lap that was driven three times, from its longest straight on', () => {
    const course = found(YARD, kind)
    expect(course.repeats).toBe(true)
    near(radii(course), [5, 9, 6, 12], 0.06)
    near(turns(course), [180, 60, 150, 90], 0.06)
    // The last piece and the first lie on one straight.
    near(straights(course), [43, 12, 10, 8], 0.12)
    expect(Math.abs(course.turnDeg - 360)).toBeLessThan(15)
    const round = YARD.reduce((sum, { lengthM }) => sum + lengthM, 0)
    expect(Math.abs(lengthOf(course) / round - 1)).toBeLessThan(0.02)
  })

  it('takes a whole lap of an oval, not its like half', () => {
    const course = found(OVAL, kind)
    near(radii(course), [6, 6], 0.05)
    near(straights(course), [30, 30], 0.05)
  })

  it('closes a figure of eight whose turns cancel', () => {
    const course = found(EIGHT, kind)
    near(turns(course), [270, 270], 0.04)
    expect(Math.abs(course.turnDeg)).toBeLessThan(15)
  })
})

describe('a log that tells less', () => {
  it('of one lap is taken whole, and said to be so', () => {
    const course = found(YARD, 'lateral', 1)
    expect(course.repeats).toBe(false)
    near(radii(course), [5, 9, 6, 12], 0.06)
  })

  it('has no course where the car only went straight, or hardly went', () => {
    const shown = driveRound([straight(50)], 1, 50, { zero: 0, noise: 0, speedNoise: 0 }, normals(uniforms(3)))
    const of = (count: number) => courseFromLog({
      tS: shown.t.slice(0, count), vMs: shown.v.slice(0, count), turning: shown.lateral.slice(0, count), kind: 'lateral',
    })
    expect(of(shown.t.length)).toEqual({ none: 'noCorner' })
    expect(of(50)).toEqual({ none: 'tooShort' })
  })
})

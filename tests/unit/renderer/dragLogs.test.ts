/** What the drag screen reads out of files and pasted columns: pulses of a wheel, and the course of a log of laps. */
import { describe, expect, it } from 'vitest'
import { courseOf, readCourseLog } from '../../../renderer/screens/drag/courseLog'
import { readMoments } from '../../../renderer/screens/drag/moments'
import { dataOf, readSpeedLog, type LookedFor } from '../../../renderer/screens/drag/speedLog'
import { driveRound } from '../../worlds/circuit'
import { coastDown, momentAt, normals, uniforms } from '../../worlds/coast'

const PULSES: LookedFor = { purpose: 'coast', holds: 'pulses', perPulseMm: { value: 205, u: 2 } }

/** Moments of the pulses of a wheel while the car coasts from 14 to 6 m/s. */
function pulses(): number[] {
  const points = coastDown({
    massKg: 1.5, turningKg: 0.07, rollingCoefficient: 0.05, dragAreaM2: 0.012, liftAreaM2: 0, airKgM3: 1.2, windMs: 0,
    gustMs: 0, rise: 0,
  }, 1, 0, 14, 6)
  return Array.from({ length: Math.floor(points.at(-1)!.x / 0.205) }, (_, k) => momentAt(points, 0.205 * k)!)
}

describe('a log of wheel pulses', () => {
  it.each([
    ['seconds without a head', (t: number) => t.toFixed(5)],
    ['microseconds without a head', (t: number) => (1e6 * t).toFixed(0)],
    ['decimal commas', (t: number) => t.toFixed(5).replace('.', ',')],
  ])('in %s gives one coast with every pulse', (_, write) => {
    const moments = pulses()
    const log = readSpeedLog(moments.map(write).join('\n'), 'wheel.csv', PULSES)
    if ('trouble' in log) throw new Error(log.trouble)
    expect(log.stretches).toHaveLength(1)
    const data = dataOf(log, log.stretches[0]!)
    expect(data).toMatchObject({ kind: 'pulses', perPulseMm: { value: 205, u: 2 } })
    const kept = data.kind === 'pulses' ? data.timesS : []
    expect(kept.length).toBeGreaterThan(0.9 * moments.length)
    expect(kept[10]! - kept[9]!).toBeCloseTo(moments[10]! - moments[9]!, 2)
  })

  it('is refused where its lines do not come later one by one', () => {
    expect(readSpeedLog('0.1\n0.2\n0.15\n0.3\n', 'wheel.csv', PULSES)).toEqual({ trouble: 'notPulses' })
  })
})

describe('moments that were pasted', () => {
  it('are taken with blanks, lines, semicolons and either decimal mark', () => {
    expect(readMoments('0.5 0,75\n1\t1.25;1,5')).toEqual({ timesS: [0.5, 0.75, 1, 1.25, 1.5] })
    expect(readMoments('')).toEqual({ timesS: [] })
  })

  it('name the one that is none, or comes too early', () => {
    expect(readMoments('0.5\nabc')).toEqual({ trouble: 'noTime', at: 2, text: 'abc' })
    expect(readMoments('0.5\n0.4')).toEqual({ trouble: 'notRising', at: 2, text: '0.4' })
  })
})

describe('a log of laps', () => {
  const shown = driveRound(
    [30, 6 * Math.PI, 30, 6 * Math.PI].map((lengthM, i) => ({ lengthM, bend: i % 2 === 0 ? 0 : 1 / 6 })), 3, 25,
    { zero: 0.1, noise: 0.3, speedNoise: 0.05 }, normals(uniforms(4)))
  const DEG = 180 / Math.PI
  const head = 'time (s);speed (km/h);accel x (g);accel y (g);yaw rate (deg/s)'
  const file = [head, ...shown.t.map((t, i) => [
    t, 3.6 * shown.v[i]!, 0, shown.lateral[i]! / 9.80665, DEG * shown.yaw[i]!,
  ].map((each) => each.toFixed(4)).join(';'))].join('\n')

  it('tells the same course by yaw rate in degrees and by lateral acceleration in g', () => {
    const log = readCourseLog(file)
    if ('trouble' in log) throw new Error(log.trouble)
    expect(log.signals).toEqual(['yaw', 'y', 'x'])
    for (const signal of ['yaw', 'y'] as const) {
      const course = courseOf(log, signal)
      if ('none' in course) throw new Error(course.none)
      expect(course.segments.map(({ kind }) => kind)).toEqual(['straight', 'corner', 'straight', 'corner'])
      const radii = course.segments.flatMap((each) => (each.kind === 'corner' ? [each.radiusM] : []))
      radii.forEach((radius) => expect(Math.abs(radius - 6)).toBeLessThan(0.3))
    }
  })

  it('says what it lacks', () => {
    expect(readCourseLog('time (s),ax (g)\n0,1\n1,2\n2,3\n')).toEqual({ trouble: 'noSpeed' })
    expect(readCourseLog('time (s),speed (m/s)\n0,1\n1,2\n2,3\n')).toEqual({ trouble: 'noTurning' })
    expect(readCourseLog('nothing here')).toEqual({ trouble: 'noNumbers' })
  })
})

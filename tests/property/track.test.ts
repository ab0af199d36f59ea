import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  circleAcceleration, LogReader, proposeLayout, proposeMapping, reduceLog, regularise, DEFAULT_REDUCTION, trackCheck,
  type LogTable,
} from '@core/track'
import { movingMean } from '@core/track/log/driven'
import { circleRun, trackSession } from '../unit/track/sessions'

const tableOf = (values: number[]): LogTable => ({
  count: values.length, timeS: Float64Array.from(values, (_, i) => i / 10), axes: { y: Float64Array.from(values) },
  speedMs: null,
  line: Uint32Array.from(values, (_, i) => i + 1), bad: { total: 0, byReason: {}, listed: [] }, blankLines: 0,
  lineCount: values.length,
})
const laps = fc.array(fc.double({ min: 2, max: 8, noNaN: true }), { minLength: 2, maxLength: 8 })

describe('track', () => {
  it('the order in which laps and runs are stored changes nothing', () => {
    fc.assert(fc.property(laps, laps, laps, (one, two, three) => {
      const runs = [circleRun('a', 'before', 1, one), circleRun('b', 'after', 2, two), circleRun('c', 'before', 3, three)]
      const gain = (of: typeof runs) => {
        const [comparison] = trackCheck(trackSession(of), { bench: null, weight: null }).groups[0]!.comparisons
        return comparison!.gain.statement
      }
      const plain = gain(runs)
      const turned = gain(runs.map((run) => ({ ...run, lapsS: [...run.lapsS].reverse() })).reverse())
      if (plain.kind !== 'interval' || turned.kind !== 'interval') throw new Error('no interval')
      // Sums in another order round otherwise, in the tenth decimal; of a gain above one, in its tenth digit.
      expect(Math.abs(turned.value - plain.value)).toBeLessThan(5e-11 * Math.max(1, Math.abs(plain.value)))
      expect(turned.u / plain.u).toBeCloseTo(1, 6)
    }), { numRuns: 60 })
  })

  it('a circle twice as wide at the same speed has half the acceleration', () => {
    const positive = fc.double({ min: 0.5, max: 50, noNaN: true })
    fc.assert(fc.property(positive, positive, (r, t) => {
      expect(circleAcceleration(2 * r, 2 * t) / circleAcceleration(r, t)).toBeCloseTo(0.5, 12)
    }))
  })

  it('the smoothed signal is what a plain mean finds', () => {
    fc.assert(fc.property(
      fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 5, maxLength: 60 }),
      fc.integer({ min: 1, max: 9 }), (values, n) => {
        const log = regularise(tableOf(Array.from({ length: 12 }, () => 1)))!
        const whole = { ...log, segments: [{ from: 0, to: values.length, startS: 0 }] }
        const plain = values.map((_, i) => {
          const reach = Math.min(Math.floor(n / 2), i, values.length - 1 - i)
          const own = values.slice(i - reach, i + reach + 1)
          return own.reduce((sum, each) => sum + each, 0) / own.length
        })
        movingMean(whole, Float64Array.from(values), n).forEach((each, i) => expect(each).toBeCloseTo(plain[i]!, 9))
      }))
  })

  it('any text is read to the end: each line is a sample, listed, blank or above the data', () => {
    const odd = fc.constantFrom('', '"', '1,5', '-', '12:30:01')
    const field = fc.oneof(fc.double({ noNaN: true }).map(String), fc.string({ maxLength: 6 }), odd)
    const line = fc.array(field, { maxLength: 5 }).map((fields) => fields.join(';'))
    fc.assert(fc.property(fc.array(line, { maxLength: 30 }), fc.integer({ min: 1, max: 50 }), (lines, piece) => {
      const head = 't;ay\n'
      const text = `${head}${Array.from({ length: 20 }, (_, i) => `${i};0.1`).join('\n')}\n${lines.join('\n')}`
      const layout = proposeLayout(head + '0;0.1\n1;0.2\n2;0.1\n')!
      const reader = new LogReader(layout, proposeMapping(head + '0;0.1\n1;0.2\n2;0.1\n', layout).mapping)
      for (let at = 0; at < text.length; at += piece) reader.push(text.slice(at, at + piece))
      const table = reader.end()
      expect(table.count + table.bad.total + table.blankLines + layout.firstLine - 1).toBe(table.lineCount)
      expect(table.count).toBeGreaterThanOrEqual(20)
      for (const value of table.axes.y!) expect(Number.isFinite(value)).toBe(true)
      const log = regularise(table)
      if (log && log.rateHz > 0.1) reduceLog(log, { ...DEFAULT_REDUCTION, cutoffHz: log.rateHz / 8, signal: 'y', rest: null })
    }), { numRuns: 200 })
  })
})

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  circleAcceleration, LogReader, proposeLayout, proposeMapping, reduceLog, regularise, DEFAULT_REDUCTION, trackCheck,
} from '@core/track'
import { slidingLeast } from '@core/track/log/held'
import { circleRun, trackSession } from '../unit/track/sessions'

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
      expect(turned.value).toBeCloseTo(plain.value, 10)
      expect(turned.u / plain.u).toBeCloseTo(1, 6)
    }), { numRuns: 60 })
  })

  it('a circle twice as wide at the same speed has half the acceleration', () => {
    const positive = fc.double({ min: 0.5, max: 50, noNaN: true })
    fc.assert(fc.property(positive, positive, (r, t) => {
      expect(circleAcceleration(2 * r, 2 * t) / circleAcceleration(r, t)).toBeCloseTo(0.5, 12)
    }))
  })

  it('the least of a window is what a plain search finds', () => {
    fc.assert(fc.property(
      fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 3, maxLength: 60 }),
      fc.integer({ min: 2, max: 8 }),
      fc.constantFrom<1 | -1>(1, -1), (values, n, sign) => {
        const column = Float64Array.from(values)
        const plain = values.slice(0, Math.max(0, values.length - n + 1))
          .map((_, i) => Math.min(...values.slice(i, i + n).map((each) => each * sign)))
        expect([...slidingLeast(column, 0, values.length, n, sign)]).toEqual(plain)
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
      const reader = new LogReader(layout, proposeMapping(head + '0;0.1\n1;0.2\n2;0.1\n', layout)!)
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

/** A chart's table ends its figures by their uncertainty, with the decimal mark and minus of the language. */
import type { CalibrationResult } from '@core/calibration'
import { csvText } from '@core/report'
import type { Uncertain } from '@core/uncertainty'
import { cellForSheet, cellText, tickDecimals } from '@renderer/charts/series'
import { curveTable } from '@renderer/screens/curve/curveSeries'
import { describe, expect, it } from 'vitest'
import { shownWith } from '../../harness/shown'

const asUncertain = (value: number, u: number) => ({ value, parts: [{ source: 'a', contribution: u }] }) as unknown as Uncertain
const curve = {
  points: [{
    stepId: 'a', ramp: 1, branch: 'loading', turnN: null, residual: -0.73519, used: true, touched: false,
    forceN: asUncertain(3.4512345, 0.0123456), dropMm: asUncertain(-1.2345678, 0.0234567),
  }],
} as unknown as CalibrationResult

describe('the table of a load-drop chart', () => {
  const preferences = shownWith({ decimalMark: 'comma' })
  const { heads, rows } = curveTable(curve, { t: (key) => key, preferences, stepNames: { a: '1' }, axle: 'front' })

  it('reads in the language, u with two digits', () => {
    expect(rows[0]!.slice(2, 7).map(cellText)).toEqual(['3,451', '0,012', '−1,235', '0,023', '−0,74'])
  })

  it('goes to a sheet as numbers, the same ones', () => {
    expect(csvText({ fileName: 'x.csv', heads, rows: rows.map((row) => row.map(cellForSheet)) }))
      .toContain('3.451,0.012,-1.235,0.023,-0.74')
  })
})

describe('the ticks of an axis', () => {
  const at = (...values: number[]) => values.map((value) => ({ value }))
  it.each([
    [at(0, 0.5, 1, 1.5), 1], [at(0, 2, 4, 6), 0], [at(0, 0.02, 0.04), 2], [at(0, 1000, 2000, 2500), 0],
    [at(3), 0], [at(), 0], [at(-0.5, -0.25), 2],
  ])('%j', (ticks, decimals) => {
    expect(tickDecimals(ticks)).toBe(decimals)
  })
})

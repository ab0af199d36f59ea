/** A log as a chart: what was logged as a band, the low-pass as a line, the levels held as bars. */
import type { Envelope } from '@core/track'
import { fromKept, stepFromKept, unitFor } from '@core/units'
import type { ChartCell, ChartPoint, ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'
import type { LogReduced } from '../../workers/log.worker'

interface Context {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
}

export function logSeries({ raw, filtered, windows }: LogReduced, { t, preferences }: Context): Series[] {
  const unit = unitFor('acceleration', preferences.chosen)
  const line = ({ timeS }: Envelope, values: Float64Array): ChartPoint[] =>
    Array.from(timeS, (x, i) => ({ x, y: fromKept(values[i]!, unit) }))
  const held: Series = {
    label: t('log.held'), role: 'lead', look: 'points', mark: 'rectRot',
    points: windows.map((each) => ({
      x: (each.fromS + each.toS) / 2, y: fromKept(each.levelMs2 * each.sign, unit), ux: (each.toS - each.fromS) / 2,
      uy: 2 * stepFromKept(each.uMs2, unit),
      said: `${preferences.plain(each.fromS, 1)} s – ${preferences.plain(each.toS, 1)} s: ${preferences.show(each.levelMs2, 'acceleration', { u: each.uMs2 })}`,
    })),
  }
  return [
    { label: '', role: 'whole', look: 'band', points: line(raw, raw.low) },
    { label: '', role: 'whole', look: 'edge', points: line(raw, raw.high) },
    { label: t('log.filtered'), role: 'ink', look: 'line', points: middle(filtered).map(({ x, y }) => ({ x, y: fromKept(y, unit) })) },
    held,
  ]
}

/** The low-pass moves little within a bucket: its middle draws it. */
const middle = ({ timeS, low, high }: Envelope): ChartPoint[] =>
  Array.from(timeS, (x, i) => ({ x, y: (low[i]! + high[i]!) / 2 }))

export function logTable({ windows }: LogReduced, { t, preferences }: Context): ChartTable {
  const symbol = preferences.symbol('acceleration')
  const seconds = (value: number): ChartCell => preferences.parts(value, 'number', { decimals: 2 })
  const level = (kept: number, u: number): ChartCell => preferences.parts(kept, 'acceleration', { u })
  return {
    heads: [`${t('log.from')}, s`, `${t('log.to')}, s`, `${t('log.level')}, ${symbol}`, `u, ${symbol}`, `${t('log.peak')}, ${symbol}`],
    rows: windows.map((each) => [
      seconds(each.fromS), seconds(each.toS), level(each.levelMs2 * each.sign, each.uMs2), level(each.uMs2, each.uMs2),
      level(each.peakMs2, each.uMs2),
    ]),
  }
}

/** Clearance under the tray against speed, with the ground, in the builder's units. */
import type { HeightPoint } from '@core/aero'
import { AXLES } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { fromKept, unitFor } from '@core/units'
import type { ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'

interface Context {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
}

/** A statement as words for a table cell. Only a plain interval gives a plain number. */
function cellOf(said: Statement, { t, preferences }: Context): string {
  switch (said.kind) {
    case 'interval': return preferences.show(said.value, 'length', { u: said.u })
    case 'atLeast': return `${t('parts.atLeast')} ${preferences.bound(said.bound, 'length', 'atLeast')}`
    case 'atMost': return `${t('parts.atMost')} ${preferences.bound(said.bound, 'length', 'atMost')}`
    case 'between': return t('parts.between', {
      low: preferences.bound(said.low, 'length', 'atLeast'), high: preferences.bound(said.high, 'length', 'atMost'),
    })
    default: return t('parts.untold')
  }
}

export function heightSeries(points: readonly HeightPoint[], context: Context): Series[] {
  const { t, preferences } = context
  const speed = unitFor('speed', preferences.chosen)
  const length = unitFor('length', preferences.chosen)
  const lines = AXLES.flatMap((axle): Series[] => {
    const plain = points.flatMap((point) => {
      const said = point.clearanceMm[axle]
      return said.kind === 'interval' && point.state[axle] === 'free' ? [{ x: fromKept(point.speedMs, speed), said }] : []
    })
    if (plain.length === 0) return []
    const at = (pick: (said: Extract<Statement, { kind: 'interval' }>) => number) => plain.map(({ x, said }) => ({ x, y: fromKept(pick(said), length) }))
    return [
      { label: '', role: axle, look: 'band', points: at((said) => said.interval.low) },
      { label: '', role: axle, look: 'edge', points: at((said) => said.interval.high) },
      { label: t(`parts.axleTitle.${axle}`), role: axle, look: 'line', dashed: axle === 'rear', points: at((said) => said.value) },
    ]
  })
  const reach = points.at(-1)
  const ground: Series[] = reach ? [{ label: t('decide.ground'), role: 'ink', look: 'line', points: [{ x: 0, y: 0 }, { x: fromKept(reach.speedMs, speed), y: 0 }] }] : []
  return [...lines, ...ground]
}

export function heightTable(points: readonly HeightPoint[], context: Context): ChartTable {
  const { t, preferences } = context
  return {
    heads: [`${t('decide.speed')}, ${preferences.symbol('speed')}`, ...AXLES.flatMap((axle) => [`${t(`parts.axleTitle.${axle}`)}: ${t('decide.clearance')}`, `${t(`parts.axleTitle.${axle}`)}: ${t('decide.state')}`])],
    rows: points.map((point) => [
      preferences.parts(point.speedMs, 'speed', { decimals: 1 }),
      ...AXLES.flatMap((axle) => [cellOf(point.clearanceMm[axle], context), t(`decide.heightState.${point.state[axle]}`)]),
    ]),
  }
}

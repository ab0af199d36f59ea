/** ClA of each run against its speed, with the law that all of them make, in the builder's units. */
import type { ClaPoint, Laws, SpeedLaw } from '@core/aero'
import { AXLES } from '@core/schema'
import { halfWidth, highEnd, lowEnd, standardUncertainty, type Statement } from '@core/uncertainty'
import { fromKept, stepFromKept, unitFor } from '@core/units'
import type { ChartPoint, ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'

interface Context {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
  readonly runName: (runId: string) => string
}

/** A statement of a ClA as words. Only a plain interval gives a plain number. */
function wordsOf(said: Statement, { t, preferences }: Context): string {
  switch (said.kind) {
    case 'interval': return preferences.show(said.value, 'area', { u: said.u })
    case 'atLeast': return `${t('parts.atLeast')} ${preferences.bound(said.bound, 'area', 'atLeast')}`
    case 'atMost': return `${t('parts.atMost')} ${preferences.bound(said.bound, 'area', 'atMost')}`
    case 'between': return t('parts.between', {
      low: preferences.bound(said.low, 'area', 'atLeast'), high: preferences.bound(said.high, 'area', 'atMost'),
    })
    default: return t('parts.untold')
  }
}

export function lawSeries(laws: Laws, context: Context): Series[] {
  const { t, preferences, runName } = context
  const speed = unitFor('speed', preferences.chosen)
  const area = unitFor('area', preferences.chosen)
  const point = (of: ClaPoint): ChartPoint | null => {
    const { claim, statement } = of.claM2
    const x = fromKept(of.speedMs.value, speed)
    const said = `${runName(of.runId)}: ${wordsOf(statement, context)}`
    if (claim.kind === 'value') {
      return { x, y: fromKept(claim.value.value, area), uy: stepFromKept(halfWidth(claim.value), area), said }
    }
    const end = lowEnd(claim) ?? highEnd(claim)
    return end && { x, y: fromKept(end.value, area), said }
  }
  const line = ({ claM2, points }: SpeedLaw, label: string, role: string, dashed: boolean): Series[] => {
    if (claM2.statement.kind !== 'interval') return []
    const y = fromKept(claM2.statement.value, area)
    const top = Math.max(...points.map(({ speedMs }) => fromKept(speedMs.value, speed)))
    return [{ label, role, look: 'line', dashed, points: [{ x: 0, y }, { x: top * 1.05, y }] }]
  }
  return AXLES.flatMap((axle): Series[] => {
    const law = laws.axles[axle]
    const of = (censored: boolean) => law.points.filter(({ claM2 }) => (claM2.claim.kind !== 'value') === censored)
      .flatMap((each) => point(each) ?? [])
    const name = t(`parts.axleTitle.${axle}`)
    const bounds = of(true)
    return [
      { label: name, role: axle, look: 'points', mark: axle === 'front' ? 'circle' : 'rect', points: of(false) },
      ...(bounds.length > 0
        ? [{ label: t('decide.onlyBound', { axle: name }), role: 'bound', look: 'points' as const, mark: 'triangle' as const, hollow: axle === 'rear', points: bounds }]
        : []),
      ...line(law, '', axle, axle === 'rear'),
    ]
  })
}

export function lawTable(laws: Laws, context: Context): ChartTable {
  const { t, preferences, runName } = context
  return {
    heads: [
      t('airflow.runLabel'), t('airflow.speed'), t('decide.pressure'),
      ...AXLES.map((axle) => `ClA, ${t(`parts.axle.${axle}`)}`), `ClA, ${t('parts.total')}`, t('decide.weight'),
    ],
    rows: laws.total.points.map((each, i) => [
      runName(each.runId), preferences.show(each.speedMs.value, 'speed', { u: standardUncertainty(each.speedMs) }),
      preferences.show(each.dynamicPressurePa.value, 'pressure', { u: standardUncertainty(each.dynamicPressurePa) }),
      ...AXLES.map((axle) => wordsOf(laws.axles[axle].points[i]!.claM2.statement, context)),
      wordsOf(each.claM2.statement, context), `${Math.round(each.weight * 100)} %`,
    ]),
  }
}

/** The load-drop chart's series and table, in the builder's units. */
import type { SquatResult } from '@core/analysis'
import type { Calibration, CalibrationRefusal, CurvePoint } from '@core/calibration'
import type { Axle } from '@core/schema'
import { standardUncertainty } from '@core/uncertainty'
import { fromKept, stepFromKept, unitFor } from '@core/units'
import type { ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'

export interface CurveContext {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
  readonly stepNames: Readonly<Record<string, string>>
  readonly axle: Axle
}

const BRANCHES = ['loading', 'unloading', 'mid'] as const
const LOOK = {
  loading: { mark: 'circle', dashed: false, hollow: false },
  unloading: { mark: 'triangle', dashed: true, hollow: true },
  mid: { mark: 'rectRot', dashed: false, hollow: false },
} as const

function scales({ preferences }: CurveContext) {
  const force = unitFor('force', preferences.chosen)
  const length = unitFor('length', preferences.chosen)
  return {
    force: (kept: number) => fromKept(kept, force), uForce: (kept: number) => stepFromKept(kept, force),
    drop: (kept: number) => fromKept(kept, length), uDrop: (kept: number) => stepFromKept(kept, length),
  }
}

function saidOf(point: CurvePoint, { t, preferences, stepNames }: CurveContext): string {
  const force = preferences.show(point.forceN.value, 'force', { u: standardUncertainty(point.forceN) })
  const drop = preferences.show(point.dropMm.value, 'length', { u: standardUncertainty(point.dropMm) })
  const touched = point.touched ? `, ${t('curve.touched')}` : ''
  return `${stepNames[point.stepId] ?? point.stepId}, ${t(`parts.branch.${point.branch}`)}: ${force}, ${drop}${touched}`
}

/** Points with error bars by branch, then the fit and its 95 % band by branch. */
export function curveSeries(squat: SquatResult, curve: Calibration | CalibrationRefusal, context: CurveContext): Series[] {
  const { t, axle } = context
  const scale = scales(context)
  const points = BRANCHES.flatMap((branch): Series[] => {
    const own = curve.points.filter((point) => point.branch === branch && !point.touched)
    if (own.length === 0) return []
    return [{
      label: t(`parts.branch.${branch}`), role: axle, look: 'points', mark: LOOK[branch].mark, hollow: LOOK[branch].hollow,
      points: own.map((point) => ({
        x: scale.force(point.forceN.value), y: scale.drop(point.dropMm.value),
        ux: 2 * scale.uForce(standardUncertainty(point.forceN)), uy: 2 * scale.uDrop(standardUncertainty(point.dropMm)),
        said: saidOf(point, context),
      })),
    }]
  })
  const touched = curve.points.filter((point) => point.touched)
  const bounds: Series[] = touched.length === 0 ? [] : [{
    label: t('curve.touched'), role: 'bound', look: 'points', mark: 'star',
    points: touched.map((point) => ({ x: scale.force(point.forceN.value), y: scale.drop(point.dropMm.value), said: saidOf(point, context) })),
  }]
  const fits = squat.drawn[axle].flatMap(({ branch, points: drawn }): Series[] => {
    const at = drawn.map((each) => ({
      x: scale.force(each.forceN), y: scale.drop(each.dropMm), low: scale.drop(each.lowMm), high: scale.drop(each.highMm),
    }))
    return [
      { label: '', role: axle, look: 'band', points: at.map(({ x, low }) => ({ x, y: low })) },
      { label: '', role: axle, look: 'edge', points: at.map(({ x, high }) => ({ x, y: high })) },
      { label: `${t('curve.fit')}, ${t(`parts.branch.${branch}`)}`, role: axle, look: 'line', dashed: LOOK[branch].dashed, points: at.map(({ x, y }) => ({ x, y })) },
    ]
  })
  const reach = curve.refused ? 0 : curve.rangeN
  const theory = squat.theory[axle].map((each): Series => ({
    label: t('curve.theoryShort', { name: each.name }), role: 'whole', look: 'line', dashed: true,
    points: [{ x: 0, y: 0 }, { x: scale.force(reach), y: scale.drop(reach / each.axleRateNPerMm.value) }],
  }))
  return [...points, ...bounds, ...fits, ...theory]
}

/** Standardised residuals against force. */
export function residualSeries(curve: Calibration | CalibrationRefusal, context: CurveContext): Series[] {
  const scale = scales(context)
  return BRANCHES.flatMap((branch): Series[] => {
    const own = curve.points.filter((point) => point.branch === branch && point.residual !== null)
    if (own.length === 0) return []
    return [{
      label: context.t(`parts.branch.${branch}`), role: context.axle, look: 'points', mark: LOOK[branch].mark, hollow: LOOK[branch].hollow,
      points: own.map((point) => ({
        x: scale.force(point.forceN.value), y: point.residual as number,
        said: `${context.stepNames[point.stepId] ?? point.stepId}: ${(point.residual as number).toFixed(2)}`,
      })),
    }]
  })
}

export function curveTable(curve: Calibration | CalibrationRefusal, context: CurveContext): ChartTable {
  const { t, preferences, stepNames } = context
  const [force, length] = [preferences.symbol('force'), preferences.symbol('length')]
  const scale = scales(context)
  const round = (value: number): number => Number(value.toPrecision(6))
  return {
    heads: [t('squat.step'), t('curve.branch'), `${t('curve.force')}, ${force}`, `u, ${force}`, `${t('curve.drop')}, ${length}`, `u, ${length}`, t('curve.residualAxis'), t('curve.remark')],
    rows: curve.points.map((point) => [
      stepNames[point.stepId] ?? point.stepId, t(`parts.branch.${point.branch}`),
      round(scale.force(point.forceN.value)), round(scale.uForce(standardUncertainty(point.forceN))),
      round(scale.drop(point.dropMm.value)), round(scale.uDrop(standardUncertainty(point.dropMm))),
      point.residual === null ? '–' : round(point.residual), point.touched ? t('curve.touched') : point.used ? '' : t('curve.unused'),
    ]),
  }
}

/** The load-drop chart's series and table, in the builder's units. */
import type { DrawnCurve } from '@core/analysis'
import {
  curveBand, evenForces, type BandPoint, type CalibrationResult, type CurvePoint, type SpringTheory,
} from '@core/calibration'
import { BRANCH_MARKS, TOUCHED_MARK, type Mark } from '@core/report/marks'
import type { Axle } from '@core/schema'
import { standardUncertainty, type Uncertain } from '@core/uncertainty'
import { fromKept, stepFromKept, unitFor } from '@core/units'
import type { ChartCell, ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'

export interface CurveContext {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
  readonly stepNames: Readonly<Record<string, string>>
  /** Whose colour it has: a corner has its axle's. */
  readonly axle: Axle
}

const BRANCHES = ['loading', 'unloading', 'mid'] as const
/** The marks of the printed page, as the chart names them. */
const CHART_MARK = { circle: 'circle', up: 'triangle', diamond: 'rectRot', square: 'rect', cross: 'crossRot' } as const
const lookOf = ({ shape, hollow }: Mark): Pick<Series, 'mark' | 'hollow'> => ({ mark: CHART_MARK[shape], hollow })

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

/** One curve as it is shown: what was fitted, its lines, and what the springs' dimensions say. */
export interface ShownCurve {
  readonly curve: CalibrationResult
  readonly drawn: readonly DrawnCurve[]
  readonly theory: readonly SpringTheory[]
}

/** Lines of a curve that comes without them, such as a corner's. */
export function drawnOf(curve: CalibrationResult): DrawnCurve[] {
  if (curve.refused) return []
  const branches = curve.settled ? (['mid'] as const) : (['loading', 'unloading'] as const)
  return branches
    .filter((branch) => branch === 'mid' || curve.points.some((point) => point.branch === branch))
    .map((branch) => ({ shape: curve.chosen, branch, points: curveBand(curve, evenForces(curve), branch) }))
}

function pointSeries(curve: CalibrationResult, context: CurveContext): Series[] {
  const { t, axle } = context
  const scale = scales(context)
  const at = (point: CurvePoint) => ({
    x: scale.force(point.forceN.value), y: scale.drop(point.dropMm.value),
    ux: 2 * scale.uForce(standardUncertainty(point.forceN)), uy: 2 * scale.uDrop(standardUncertainty(point.dropMm)),
    said: saidOf(point, context),
  })
  const free = BRANCHES.flatMap((branch): Series[] => {
    const own = curve.points.filter((point) => point.branch === branch && !point.touched)
    return own.length === 0 ? [] : [{
      label: t(`parts.branch.${branch}`), role: axle, look: 'points', ...lookOf(BRANCH_MARKS[branch]), points: own.map(at),
    }]
  })
  const touched = curve.points.filter((point) => point.touched)
  const bounds: Series = {
    label: t('curve.touched'), role: 'bound', look: 'points', ...lookOf(TOUCHED_MARK), points: touched.map(at),
  }
  return touched.length === 0 ? free : [...free, bounds]
}

/** The fit of each branch with its 95 % band. */
function fitSeries(drawn: readonly DrawnCurve[], context: CurveContext): Series[] {
  const { t, axle } = context
  const scale = scales(context)
  return drawn.flatMap(({ branch, points }): Series[] => {
    const line = (pick: (point: BandPoint) => number) =>
      points.map((each) => ({ x: scale.force(each.forceN), y: scale.drop(pick(each)) }))
    const label = `${t('curve.fit')}, ${t(`parts.branch.${branch}`)}`
    return [
      { label: '', role: axle, look: 'band', points: line((each) => each.lowMm) },
      { label: '', role: axle, look: 'edge', points: line((each) => each.highMm) },
      { label, role: axle, look: 'line', dashed: branch === 'unloading', points: line((each) => each.dropMm) },
    ]
  })
}

/** Points with error bars by branch, the fits with their bands, the springs' theory and where the tray touches. */
export function curveSeries({ curve, drawn, theory }: ShownCurve, context: CurveContext): Series[] {
  const { t } = context
  const scale = scales(context)
  const reachN = Math.max(0, ...curve.points.map((point) => point.forceN.value))
  const touchMm = curve.refused ? null : curve.touchMm
  const straight = (label: string, role: string, fromMm: number, toMm: number): Series => ({
    label, role, look: 'line', dashed: true,
    points: [{ x: 0, y: scale.drop(fromMm) }, { x: scale.force(reachN), y: scale.drop(toMm) }],
  })
  return [
    ...pointSeries(curve, context),
    ...fitSeries(drawn, context),
    ...theory.map(({ name, axleRateNPerMm }) =>
      straight(t('curve.theoryShort', { name }), 'whole', 0, reachN / axleRateNPerMm.value)),
    ...(touchMm ? [straight(t('curve.touchLine'), 'bound', touchMm.value, touchMm.value)] : []),
  ]
}

/** Standardised residuals against force. */
export function residualSeries(curve: CalibrationResult, context: CurveContext): Series[] {
  const scale = scales(context)
  return BRANCHES.flatMap((branch): Series[] => {
    const own = curve.points.filter((point) => point.branch === branch && point.residual !== null)
    if (own.length === 0) return []
    return [{
      label: context.t(`parts.branch.${branch}`), role: context.axle, look: 'points',
      ...lookOf(BRANCH_MARKS[branch]),
      points: own.map((point) => ({
        x: scale.force(point.forceN.value), y: point.residual as number,
        said: `${context.stepNames[point.stepId] ?? point.stepId}: ${context.preferences.plain(point.residual as number, 2)}`,
      })),
    }]
  })
}

export function curveTable(curve: CalibrationResult, context: CurveContext): ChartTable {
  const { t, preferences, stepNames } = context
  const [force, length] = [preferences.symbol('force'), preferences.symbol('length')]
  const figures = (measured: Uncertain, quantity: 'force' | 'length'): ChartCell[] => {
    const u = standardUncertainty(measured)
    return [preferences.parts(measured.value, quantity, { u }), preferences.parts(u, quantity, { u, step: true })]
  }
  return {
    heads: [t('squat.step'), t('curve.branch'), `${t('curve.force')}, ${force}`, `u, ${force}`, `${t('curve.drop')}, ${length}`, `u, ${length}`, t('curve.residualAxis'), t('curve.remark')],
    rows: curve.points.map((point) => [
      stepNames[point.stepId] ?? point.stepId, t(`parts.branch.${point.branch}`),
      ...figures(point.forceN, 'force'), ...figures(point.dropMm, 'length'),
      point.residual === null ? '–' : preferences.parts(point.residual, 'number', { decimals: 2 }), point.touched ? t('curve.touched') : point.used ? '' : t('curve.unused'),
    ]),
  }
}

/** What a curve's points and fits show: shape, scatter, suspicious readings, loads, friction, what dominates. */
import { stationWeights } from '@core/chassis'
import { aboutReading, remark, type Remark } from '@core/remark'
import { AXLES, CORNERS, type Corner } from '@core/schema'
import {
  BEYOND_CHANCE, budget, chiSquareUpper, errorOf, exact, fUpper, minus, normalQuantile,
  standardUncertainty, variance, type SourceGroup, WARNS,
} from '@core/uncertainty'
import { axleOfCurve, plainCounts, type SquatData } from '../points'
import { forceOnCurve, overCurves, readCurves } from '../readCurves'
import type { Calibration, CalibrationRefusal, Candidate, CurvePoint } from '../types'
import { misfitRemark } from './misfit'

/** Remarks about one axle line or corner. */
export function curveRemarks(data: SquatData, result: Calibration | CalibrationRefusal): Remark[] {
  if (result.refused) {
    const { code } = result
    return [...reasonRemarks(code, result.points), ...spreadRemarks(result.points), ...frictionRemarks(data, result)]
  }
  return [
    ...fitRemarks(data, result), ...suspiciousRemarks(data, result), ...spreadRemarks(result.points),
    ...frictionRemarks(data, result), ...repeatRemarks(result), ...choiceRemarks(result), ...touchRemarks(data, result),
    ...dominanceRemarks(result),
  ]
}

/** A missing zero is told corner by corner in the session's own remarks. */
function reasonRemarks(code: CalibrationRefusal['code'], points: readonly CurvePoint[]): Remark[] {
  if (code === 'noZero') return []
  return [code === 'tooFewPoints' ? remark(code, plainCounts(points)) : remark(code)]
}

type FittedCandidate = Extract<Candidate, { fitted: true }>

const chosenOf = ({ candidates, chosen }: Calibration): FittedCandidate =>
  candidates.find((each): each is FittedCandidate => each.fitted && each.shape === chosen)!

/** A scatter so little above what was stated changes no digit. */
const WORTH_SAYING = 1.05

interface PureError { readonly square: number; readonly dof: number }

/** Scatter of points that should be alike (same branch, same turn, same force) about their own mean, in variances. */
export function pureError(points: readonly CurvePoint[]): PureError {
  const groups = new Map<string, CurvePoint[]>()
  for (const point of points) {
    if (!point.used || point.touched) continue
    const key = `${point.branch}|${point.turnN?.toPrecision(6) ?? 'rest'}|${point.forceN.value.toPrecision(6)}`
    groups.set(key, [...(groups.get(key) ?? []), point])
  }
  let square = 0
  let dof = 0
  for (const group of groups.values()) {
    const mean = group.reduce((sum, { dropMm }) => sum + dropMm.value, 0) / group.length
    const own = group.map(({ dropMm }) => variance(errorOf(dropMm, 'reading')))
    group.forEach(({ dropMm }, i) => { square += (dropMm.value - mean) ** 2 / own[i]! })
    dof += group.length - 1
  }
  return { square, dof }
}

/** Lack of fit against pure error where points repeat; else the whole scatter against what was stated. */
function fitRemarks(data: SquatData, calibration: Calibration): Remark[] {
  const misfit = misfitRemark(data, calibration)
  const { chiSquare, dof, pValue, birge, shape } = chosenOf(calibration)
  const remarks: Remark[] = misfit ? [misfit] : []
  const pure = pureError(calibration.points)
  const lackDof = dof - pure.dof
  if (pure.dof >= 2 && lackDof >= 1) {
    const lack = Math.max(0, chiSquare - pure.square) / lackDof
    const scatter = Math.max(1, pure.square / pure.dof)
    // Against the repeats' own scatter, and against what was stated: both must find it.
    const p = Math.max(chiSquareUpper(lack * lackDof, lackDof), fUpper(lack / scatter, lackDof, pure.dof))
    if (p < WARNS / AXLES.length) remarks.push(remark('lackOfFit', { shape, pValue: p }))
  }
  if (birge > WORTH_SAYING) {
    const grave = pValue < WARNS / AXLES.length
    const values = { factor: birge, pValue }
    remarks.push(grave ? remark('scatterBeyondStated', values) : remark('scatterEnlarged', values))
  }
  return remarks
}

/** The one point farthest from the curve, if chance does not explain it among so many; and which corner it was. */
function suspiciousRemarks(data: SquatData, { points, of }: Calibration): Remark[] {
  const told = points.filter(({ used, residual }) => used && residual !== null)
  const worst = told.reduce<CurvePoint | null>((most, each) =>
    (most === null || Math.abs(each.residual!) > Math.abs(most.residual!) ? each : most), null)
  if (!worst || told.length < 4) return []
  const limit = normalQuantile(1 - WARNS / (2 * AXLES.length * told.length))
  const sigma = worst.residual!
  // Where all scatter more than stated, one has to stand out of that.
  if (Math.abs(sigma) <= limit * Math.max(1, othersBirge(told, worst))) return []
  const { corner, offMm } = blamed(data, worst.stepId, of, sigma * standardUncertainty(errorOf(worst.dropMm, 'reading')))
  const { stepId, ramp } = worst
  const reading = data.session.readings
    .findLast((each) => each.stepId === stepId && each.corner === corner && each.setAside === null)
  return [reading ? remark('suspiciousReading', { offMm, sigma, ramp }, aboutReading(reading))
    : remark('suspiciousStep', { offMm, sigma, ramp }, { kind: 'step', stepId })]
}

/** How much more than stated the other points scatter about the curve. */
function othersBirge(told: readonly CurvePoint[], worst: CurvePoint): number {
  const others = told.filter((each) => each !== worst)
  return Math.sqrt(others.reduce((sum, { residual }) => sum + residual! ** 2, 0) / Math.max(1, others.length - 2))
}

/**
 * Which corner made an axle line stray: a misread corner twists the plane to its own side. Where the
 * plane is not twisted, both corners moved together: the load, its place, or a settle that was left out.
 */
function blamed(
  data: SquatData, stepId: string, of: Calibration['of'], offMm: number,
): { corner: Corner | null; offMm: number } {
  if (of.kind === 'corner') return { corner: of.corner, offMm }
  const step = data.steps.find((each) => each.step.id === stepId)
  const twist = step?.twistMm
  const weights = stationWeights(data.chassis, CORNERS)
  if (!twist || !weights.twist || !(Math.abs(twist.value) > BEYOND_CHANCE * standardUncertainty(twist))) {
    return { corner: null, offMm }
  }
  const shares = weights.axles[of.axle]!
  const found = CORNERS.find((corner) => {
    const off = twist.value / weights.twist![corner]!
    return (shares[corner] ?? 0) > 0.25 && Math.sign(off) === Math.sign(offMm)
  })
  return found ? { corner: found, offMm: twist.value / weights.twist[found]! } : { corner: null, offMm }
}

const FEW_LOADS = 4
const WIDE_GAP = 0.45

/** Too few different loads, or a gap that no load fills. */
function spreadRemarks(points: readonly CurvePoint[]): Remark[] {
  const forces = [...new Map(points.filter(({ used, touched }) => used && !touched)
    .map(({ forceN }) => [forceN.value.toPrecision(3), forceN.value])).values()]
    .filter((force) => force > 0).sort((a, b) => a - b)
  const remarks: Remark[] = []
  if (forces.length > 0 && forces.length < FEW_LOADS) {
    remarks.push(remark('tooFewLoads', { loads: forces.length, wanted: FEW_LOADS }))
  }
  const top = forces[forces.length - 1] ?? 0
  const gap = forces.reduce((widest, force, i) => {
    const fromN = i === 0 ? 0 : forces[i - 1]!
    return force - fromN > widest.toN - widest.fromN ? { fromN, toN: force } : widest
  }, { fromN: 0, toN: 0 })
  if (forces.length > 1 && gap.toN - gap.fromN > WIDE_GAP * top) remarks.push(remark('loadsBadlySpread', gap))
  return remarks
}

/** Where the friction comes from, and where nothing tells of it. */
function frictionRemarks({ settled, session }: SquatData, result: Calibration | CalibrationRefusal): Remark[] {
  const assumedN = session.setup.assumedFrictionN?.[axleOfCurve(result.of)] ?? 0
  const branches = new Set(result.points.filter(({ used }) => used).map(({ branch }) => branch))
  if (!result.refused && chosenOf(result).frictionFrom === 'assumed') {
    return [remark('frictionAssumed', { frictionN: assumedN })]
  }
  if (settled || assumedN > 0 || branches.size === 0) return []
  if (!branches.has('loading') || !branches.has('unloading')) return [remark('frictionUnknown')]
  const zeroOnly = result.points.every(({ used, branch, forceN }) => !used || branch === 'loading' || forceN.value === 0)
  return zeroOnly ? [remark('frictionFromZero')] : []
}

function repeatRemarks({ repeatability: { from, uMm, dof } }: Calibration): Remark[] {
  switch (from) {
    case 'given': return []
    case 'steps': case 'readings': return [remark('repeatabilityLearned', { uMm, dof })]
    case 'scatter': return [remark('repeatabilityFromScatter', { uMm, dof })]
    case 'none': return [remark('repeatabilityUnknown')]
  }
}

/** Weight of the first shape below which the choice counts as open. */
const OPEN_CHOICE = 0.6

function choiceRemarks({ candidates, chosen }: Calibration): Remark[] {
  const [first, second] = candidates.flatMap((each) => (each.fitted ? [each] : [])).sort((a, b) => b.weight - a.weight)
  if (!first || !second || first.weight >= OPEN_CHOICE) return []
  return [remark('shapeOpen', {
    shape: chosen, weight: first.weight, other: second.shape, otherWeight: second.weight,
  })]
}

function touchRemarks({ chassis }: SquatData, { points, of, touchMm }: Calibration): Remark[] {
  const steps = points.filter(({ used, touched }) => used && touched).length
  const remarks = steps > 0 ? [remark('touchedStepsBound', { steps })] : []
  const axle = axleOfCurve(of)
  const given = chassis.trayTouchMm[axle]
  const seen = touchMm?.parts.every(({ source }) => source.role !== 'trayTouch')
  if (!given || !touchMm || !seen) return remarks
  const off = minus(touchMm, exact(given.value))
  const u = Math.hypot(standardUncertainty(off), given.u)
  if (Math.abs(off.value) <= BEYOND_CHANCE * u) return remarks
  return [...remarks, remark('touchDisagrees', { seenMm: touchMm.value, givenMm: given.value, uMm: u })]
}

const DOMINATES = 0.5

/** What to buy or do first: a group that makes up most of a mid-range reading's variance by the curve alone. */
function dominanceRemarks(calibration: Calibration): Remark[] {
  const middle = overCurves(calibration, readCurves(calibration), (each) =>
    forceOnCurve(each, exact(calibration.rangeMm / 2), 0))
  const remarkFor: Partial<Record<SourceGroup, 'scaleGainDominates' | 'scaleResolutionDominates' | 'placeDominates'>> = {
    scaleGain: 'scaleGainDominates', scaleResolution: 'scaleResolutionDominates', place: 'placeDominates',
  }
  return budget(middle).flatMap(({ group, share, u }) => {
    const code = remarkFor[group]
    return code && share > DOMINATES ? [remark(code, { share, uN: u })] : []
  })
}

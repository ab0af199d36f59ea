/** A squat session to a calibrated curve: points, candidates, the choice among them, remarks. */
import { localGravity, perAxleOf } from '@core/chassis'
import { remark } from '@core/remark'
import { CORNERS, type Chassis, type SquatSession } from '@core/schema'
import { ENLARGES, entered, exact, known, mean, merged, type Part, type Source, type Uncertain } from '@core/uncertainty'
import { estimatesOf } from './fit/estimates'
import { preparedFit, type FactorMember, type PreparedFit } from './fitData'
import { nameOfCurve } from './names'
import { axleOfCurve, curvePoints, plainCounts, squatData, type SquatData } from './points'
import { curveRemarks } from './remarks/curve'
import { bestOf, fitCandidates } from './select/candidates'
import type { CandidateFit, FittedCandidate, FrictionChoice } from './select/types'
import { settlingParts, type WorkedCurve } from './settledCurves'
import type {
  Calibration, CalibrationRefusal, Candidate, CurveOf, CurvePoint, Repeatability, Shape,
} from './types'
import { SHAPES } from './types'

export type CalibrationResult = Calibration | CalibrationRefusal

export interface CalibrateOptions {
  /** Shapes to try; default all. */
  readonly shapes?: readonly Shape[]
}

/**
 * Calibrates one axle line or corner from a squat session.
 *
 * Every candidate shape is fitted by generalised least squares with errors in both variables and all
 * shared errors shared, and weighed by AICc. Friction comes from both branches where both were read,
 * else from the builder's assumption (rectangular between none and twice as much), else there is none.
 * Points with the tray on the ground only bound the curve from one side.
 *
 * @returns a calibration, or a refusal that says what is missing; it never throws on a parsed session
 */
export function calibrate(
  session: SquatSession, chassis: Chassis, of: CurveOf, options: CalibrateOptions = {},
): CalibrationResult {
  const data = squatData(session, chassis)
  return data ? work(data, of, options).result : withoutGauge(session, of)
}

const withoutGauge = ({ id }: SquatSession, of: CurveOf): CalibrationRefusal => ({
  refused: true, of, sessionId: id, code: 'unknownGauge', points: [], candidates: [], remarks: [remark('unknownGauge')],
})

/** Both axles of a session. */
export function calibrateAxles(session: SquatSession, chassis: Chassis, options: CalibrateOptions = {}) {
  const data = squatData(session, chassis)
  const worked = perAxleOf((axle) => (data ? work(data, { kind: 'axle', axle }, options) : null))
  const curves = perAxleOf((axle) => workedCurve(worked[axle]))
  const settling = settlingParts(curves)
  return perAxleOf((axle): CalibrationResult => {
    const each = worked[axle]
    const curve = curves[axle]
    if (!each) return withoutGauge(session, { kind: 'axle', axle })
    return settling && curve ? settled(curve, settling.parts[axle], settling.alike) : each.result
  })
}

/** All four corners of a session, in the fixed order. */
export function calibrateCorners(session: SquatSession, chassis: Chassis, options: CalibrateOptions = {}) {
  const results = CORNERS.map((corner) => calibrate(session, chassis, { kind: 'corner', corner }, options))
  return Object.fromEntries(CORNERS.map((corner, i) => [corner, results[i]!])) as
    Record<(typeof CORNERS)[number], CalibrationResult>
}

interface Work extends Attempt {
  readonly best: FittedCandidate | null
  readonly result: CalibrationResult
}

function work(from: SquatData, of: CurveOf, options: CalibrateOptions): Work {
  const attempt = fitted(from, of, options)
  const { data, points, prepared, fits } = attempt
  const best = bestOf(fits)
  const candidates = describe(fits, prepared, data, of)
  const result = best ? assembled(data, of, points, prepared, candidates, best) : refusal(data, of, points, candidates)
  return { ...attempt, best, result }
}

const workedCurve = (work: Work | null): WorkedCurve | null =>
  (work?.best && !work.result.refused ? { ...work, best: work.best, calibration: work.result } : null)

/** The curve with the scatter of its points as settling: by step, not each point's own. */
function settled(
  { calibration, best, prepared }: WorkedCurve, parts: readonly (readonly Part[])[], alike: number,
): Calibration {
  const { sessionId, of } = calibration
  const estimates = parametersOf(best, prepared, nameOf(sessionId, of), parts)
  const candidates = calibration.candidates.map((each): Candidate =>
    (each.fitted && each.shape === best.shape ? { ...each, ...estimated(best, estimates) } : each))
  return { ...calibration, candidates, alike, sources: sourcesOf(candidates) }
}

interface Attempt {
  readonly data: SquatData
  readonly points: readonly CurvePoint[]
  readonly prepared: PreparedFit
  readonly fits: readonly CandidateFit[]
}

/** Rounds in which scatter about the curve is fed back as repeatability. */
const SCATTER_ROUNDS = 6

/** The fit; where nothing else tells the repeatability, the scatter about the best curve does. */
function fitted(start: SquatData, of: CurveOf, options: CalibrateOptions): Attempt {
  let attempt = attemptWith(start, of, options)
  if (start.repeatability.from !== 'none') return attempt
  const rounding = start.gauge.resolutionMm / Math.sqrt(12)
  let square = rounding ** 2
  for (let round = 0; round < SCATTER_ROUNDS; round++) {
    const best = bestOf(attempt.fits)
    if (!best || best.fit.dof < 1) break
    const before = square
    square *= best.fit.birge ** 2
    const repeatability: Repeatability = {
      uMm: Math.sqrt(Math.max(0, square - rounding ** 2)), dof: best.fit.dof, from: 'scatter',
      pool: `repeatability:${start.session.id}:${nameOfCurve(of)}`,
    }
    attempt = attemptWith(squatData(start.session, start.chassis, repeatability)!, of, options)
    square = Math.max(square, rounding ** 2)
    if (Math.abs(square / before - 1) < 0.02) break
  }
  return attempt
}

function attemptWith(data: SquatData, of: CurveOf, { shapes = SHAPES }: CalibrateOptions): Attempt {
  const points = curvePoints(data, of)
  const prepared = preparedFit(points, frictionChoice(data, of, points))
  return { data, points, prepared, fits: fitCandidates(prepared.data, shapes) }
}

/** Where the friction comes from; see `calibrate`. */
function frictionChoice({ session, settled }: SquatData, of: CurveOf, points: readonly CurvePoint[]): FrictionChoice {
  const plain = points.filter(({ used, touched }) => used && !touched)
  const loading = plain.some(({ branch }) => branch === 'loading')
  const unloading = plain.filter(({ branch }) => branch === 'unloading')
  if (!settled && loading && unloading.some(({ forceN }) => forceN.value !== 0)) return { kind: 'fit' }
  const assumed = session.setup.assumedFrictionN?.[axleOfCurve(of)] ?? 0
  // A zero that friction held off tells something of it, too little to overrule what the builder knows.
  if (!(assumed > 0)) return { kind: !settled && loading && unloading.length > 0 ? 'fit' : 'none' }
  // One corner holds half of what the axle's two hold.
  const valueN = of.kind === 'axle' ? assumed : assumed / 2
  return { kind: 'given', valueN, uN: valueN / Math.sqrt(3) }
}

function describe(
  fits: readonly CandidateFit[], prepared: PreparedFit, { session }: SquatData, of: CurveOf,
): Candidate[] {
  const name = nameOf(session.id, of)
  return fits.map((each): Candidate => {
    if (!each.fitted) return { shape: each.shape, fitted: false, code: each.refusal.code }
    const { fit, frictionAt, shape } = each
    return {
      shape, fitted: true, ...estimated(each, parametersOf(each, prepared, name)),
      frictionFrom: frictionAt < 0 ? 'none' : prepared.data.friction.kind === 'fit' ? 'branches' : 'assumed',
      chiSquare: fit.chiSquare, dof: fit.dof, pValue: fit.pValue, birge: fit.birge, aicc: each.aicc,
      weight: each.weight, convergence: fit.convergence,
    }
  })
}

const nameOf = (sessionId: string, of: CurveOf): string => `curve:${sessionId}:${nameOfCurve(of)}`

const estimated = ({ curve, frictionAt }: FittedCandidate, estimates: readonly Uncertain[]) => ({
  parameters: curve.names.map((parameter, j) => ({ name: parameter, estimate: estimates[j]! })),
  frictionN: frictionAt < 0 ? exact(0) : estimates[frictionAt]!,
})

/**
 * Parameters with their sources: factors and the points' own errors taken apart again. Scatter beyond the
 * stated uncertainties is known from the residuals only, and then has their degrees of freedom.
 *
 * @param scattered parameter by parameter what makes the points scatter beyond what is stated, where that is known
 */
function parametersOf(
  { fit, shape }: FittedCandidate, prepared: PreparedFit, name: string, scattered?: readonly (readonly Part[])[],
): readonly Uncertain[] {
  const friction = known('assumedFriction', `${name}:assumedFriction`, 'rectangular')
  const scatter = !scattered && fit.birge > 1 && fit.pValue < ENLARGES ? { dof: fit.dof, pool: `${name}:${shape}:scatter` } : undefined
  const noise = (r: number) => prepared.noise.map(({ source, share }) => ({
    source: merged(source, 'curveNoise', `${name}:${shape}:${source.group}:${r}`, scatter), share: Math.sqrt(share),
  }))
  return estimatesOf(fit, scattered && 1).map(({ value, ...by }, at) => ({
    value,
    parts: [
      ...by.factors.flatMap((each, j) => parted(each, prepared.factors[j]!)),
      ...by.priors.flatMap((each) => parted(each, [{ source: friction, share: 1 }])),
      ...by.noise.flatMap((each, r) => parted(each, noise(r))),
      ...(scattered?.[at] ?? []),
    ],
  }))
}

/** A contribution, by the sources behind it; the shares' squares add up to 1. */
const parted = (contribution: number, members: readonly FactorMember[]): Part[] =>
  (contribution === 0 ? [] : members.map(({ source, share }) => ({ source, contribution: contribution * share })))

function assembled(
  data: SquatData, of: CurveOf, points: readonly CurvePoint[], prepared: PreparedFit, candidates: readonly Candidate[],
  best: FittedCandidate,
): Calibration {
  let used = 0
  const withResiduals = points.map((point) =>
    (point.used ? { ...point, residual: best.fit.standardised[used++]! } : point))
  const plain = prepared.points.filter(({ touched }) => !touched)
  const calibration: Calibration = {
    refused: false, of, sessionId: data.session.id, points: withResiduals, candidates, chosen: best.shape,
    span: best.curve.span,
    rangeN: Math.max(...plain.map(({ forceN }) => forceN.value)),
    rangeMm: Math.max(...plain.map(({ dropMm }) => dropMm.value)),
    leastN: Math.min(0, ...plain.map(({ forceN }) => forceN.value)),
    leastMm: Math.min(0, ...plain.filter(({ forceN }) => forceN.value < 0).map(({ dropMm }) => dropMm.value)),
    settled: data.settled, repeatability: data.repeatability, gravityFrom: localGravity(data.chassis.place).from,
    touchMm: touchDrop(data, of, points), alike: 0, remarks: [], sources: sourcesOf(candidates),
  }
  return { ...calibration, remarks: curveRemarks(data, calibration) }
}

function sourcesOf(candidates: readonly Candidate[]): Source[] {
  const sources = new Map<string, Source>()
  for (const each of candidates) {
    if (!each.fitted) continue
    for (const { estimate } of each.parameters) estimate.parts.forEach(({ source }) => sources.set(source.id, source))
    each.frictionN.parts.forEach(({ source }) => sources.set(source.id, source))
  }
  return [...sources.values()]
}

/** Drop at which the tray touches: as the session's own touched steps tell it, else the profile. */
export function touchDrop(
  { session, chassis }: SquatData, of: CurveOf, points: readonly CurvePoint[],
): Uncertain | null {
  const axle = axleOfCurve(of)
  const touchedHere = new Set(session.steps
    .filter(({ touched, setAside }) => touched[axle] && setAside === null).map(({ id }) => id))
  const seen = points.filter(({ stepId }) => touchedHere.has(stepId)).map(({ dropMm }) => dropMm)
  if (seen.length > 0) return mean(seen)
  const given = chassis.trayTouchMm[axle]
  return given && entered(given, 'trayTouch', `chassis:touch:${axle}`)
}

function refusal(
  data: SquatData, of: CurveOf, points: readonly CurvePoint[], candidates: readonly Candidate[],
): CalibrationRefusal {
  const refused: CalibrationRefusal = {
    refused: true, of, sessionId: data.session.id, code: reasonOf(data, points), points, candidates, remarks: [],
  }
  return { ...refused, remarks: curveRemarks(data, refused) }
}

function reasonOf({ zeros, session }: SquatData, points: readonly CurvePoint[]): CalibrationRefusal['code'] {
  if (session.readings.length === 0) return 'noReadings'
  if (Object.keys(zeros).length === 0 && points.length === 0) return 'noZero'
  const { readings, loads } = plainCounts(points)
  if (readings < 3 || loads < 2) return 'tooFewPoints'
  return points.every(({ used, touched, dropMm }) => !used || touched || dropMm.value <= 0) ? 'noDrop' : 'noShapeFits'
}

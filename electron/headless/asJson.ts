/** The results as JSON, SI units in the keys. README describes the shape. */
import type { Comparison, Difference, HeightPoint, Laws, SpeedLaw } from '@core/aero'
import type { SpringAnswer, SquatResult } from '@core/analysis'
import type { RunResult } from '@core/airflow'
import { perAxleOf, weightDoubts } from '@core/chassis'
import { ENGLISH, UNFITTED_EN } from '@core/report/words'
import type { Axle } from '@core/schema'
import type { TrackGroup, TrackResult } from '@core/track'
import { standardUncertainty, type Uncertain } from '@core/uncertainty'
import { answerJson } from './answerText'
import { costJson, rankJson } from './costJson'
import type { Results } from './results'
import { statementJson } from './words'

const estimate = (of: Uncertain, suffix: string): Record<string, number> =>
  ({ [`value${suffix}`]: of.value, [`u${suffix}`]: standardUncertainty(of) })
const maybe = (of: Uncertain | null, suffix: string) => of && estimate(of, suffix)

/** All results of a file. */
export function asJson(results: Results): unknown {
  const { exchange, analysis, wishes, springs, repeats } = results
  return {
    format: 'squatbench-results', chassisId: exchange.chassis.id, chassisName: exchange.chassis.name,
    gravity: { from: analysis.gravityFrom, ...estimate(analysis.gravityMs2, 'Ms2') },
    answer: answerJson(results),
    staticFrontShare: maybe(analysis.staticFrontShare, ''),
    weightDoubts: weightDoubts(exchange.chassis),
    squatTests: analysis.squats.map(squatJson),
    runs: analysis.airflows.flatMap(({ runs }) => runs.map(runJson)),
    unreadRuns: analysis.airflows.flatMap(({ unread }) => unread),
    configurations: analysis.configurations.map(({ configurationId, name, aero, touchDowns, ...each }) => ({
      configurationId, name,
      claFront: statementJson(aero.axles.front.claM2.statement, 'M2'),
      claRear: statementJson(aero.axles.rear.claM2.statement, 'M2'),
      claTotal: statementJson(aero.total.claM2.statement, 'M2'),
      frontShare: statementJson(aero.balance.frontShare, ''),
      centreOfPressure: statementJson(aero.balance.centreMm, 'Mm'),
      staticFrontShare: statementJson(aero.balance.staticFrontShare, ''), shift: statementJson(aero.balance.shift, ''),
      laws: lawsJson(aero), wholeLaws: lawsJson(aero.whole), otherLaws: aero.other && lawsJson(aero.other),
      density: estimate(aero.densityKgM3, 'KgM3'),
      predictions: each.predictions.map((at) => ({
        speedMs: at.speedMs, densityKgM3: at.densityKgM3, extrapolated: at.extrapolated,
        axles: perAxleOf((axle) => ({ force: statementJson(at.forceN[axle], 'N'), ...heightJson(at, axle) })),
        total: statementJson(at.totalN, 'N'), weightShare: statementJson(at.weightShare, ''),
      })),
      heights: each.heights.map((at) =>
        ({ speedMs: at.speedMs, axles: perAxleOf((axle) => heightJson(at, axle, { brief: true })) })),
      touchDown: {
        axles: perAxleOf((axle) => {
          const { kind, speedMs, divergesMs } = touchDowns.axles[axle]
          return { kind, speed: statementJson(speedMs, 'Ms'), divergesMs }
        }),
        first: statementJson(touchDowns.firstMs, 'Ms'), frontFirst: touchDowns.frontFirst,
      },
      springs: {
        holdMm: wishes.holdMm, atMs: wishes.holdAtMs,
        axles: perAxleOf((axle) => springJson(springs[configurationId]?.[axle])),
      },
      remarks: aero.remarks,
    })),
    ranking: (analysis.matrix?.ranked ?? []).map(({ rank, configurationId, totalClaM2, tiedWith }) =>
      ({ rank, configurationId, total: statementJson(totalClaM2.statement, 'M2'), tiedWith })),
    comparisons: (analysis.matrix?.cells ?? []).map(({ comparison, holmP, distinct }) => ({
      ...comparisonJson(comparison), holmP, holmPairs: analysis.matrix?.pairCount, distinct,
      wishedM2: wishes.findM2, repeatsNeeded: repeats(comparison),
    })),
    comparisonRemarks: analysis.matrix?.remarks ?? [],
    track: analysis.tracks.flatMap((track) => track.groups.map((group) => groupJson(track, group))),
    trackBalance: analysis.tracks.map(balanceJson),
    costs: costJson(analysis.costs),
    ranked: results.ranking && rankJson(results.ranking),
    troubles: analysis.troubles,
  }
}

function squatJson(squat: SquatResult) {
  return {
    sessionId: squat.sessionId, name: squat.name, remarks: squat.remarks,
    axles: perAxleOf((axle) => {
      const curve = squat.axles[axle]
      if (curve.refused) return { refused: curve.code, why: ENGLISH.sentences[`refused_${curve.code}`] }
      return {
        chosen: curve.chosen, rangeN: curve.rangeN, rangeMm: curve.rangeMm,
        candidates: curve.candidates.map((each) => (each.fitted
          ? {
              shape: each.shape, weight: each.weight, aicc: each.aicc, chiSquare: each.chiSquare, dof: each.dof,
              birge: each.birge,
              // A parameter's unit stands at the end of its name.
              parameters: Object.fromEntries(
                each.parameters.map(({ name, estimate: of }) =>
                  [name, { value: of.value, u: standardUncertainty(of) }]),
              ),
              friction: { from: each.frictionFrom, ...estimate(each.frictionN, 'N') },
            }
          : { shape: each.shape, why: UNFITTED_EN[each.code] })),
        remarks: curve.remarks,
      }
    }),
  }
}

function runJson(run: RunResult) {
  return {
    runId: run.runId, sessionId: run.sessionId, name: run.name, configurationId: run.configurationId,
    kind: run.kind, control: run.control, controlRunIds: run.controlRunIds,
    speed: run.flow && estimate(run.flow.speedMs, 'Ms'),
    meanSquareSpeed: run.flow && estimate(run.flow.meanSquareM2S2, 'M2S2'),
    dynamicPressure: run.flow && estimate(run.flow.dynamicPressurePa, 'Pa'),
    unevenness: run.flow?.unevenness ?? null, pointCount: run.flow?.pointCount ?? 0,
    density: estimate(run.air.densityKgM3, 'KgM3'),
    axles: perAxleOf((axle) => {
      const { dropMm, driftMm, pitchN, holdingN, tyreMm, touched, ground, grossN, controlN, netN } = run.axles[axle]
      return {
        drop: maybe(dropMm, 'Mm'), drift: maybe(driftMm, 'Mm'), pitch: maybe(pitchN, 'N'), holding: maybe(holdingN, 'N'),
        tyre: maybe(tyreMm, 'Mm'), touched, ground,
        gross: statementJson(grossN.statement, 'N'), control: controlN && statementJson(controlN.statement, 'N'),
        net: statementJson(netN.statement, 'N'),
      }
    }),
    grossTotal: statementJson(run.grossTotalN.statement, 'N'), total: statementJson(run.totalN.statement, 'N'),
    remarks: run.remarks,
  }
}

const lawsJson = (laws: Laws) => ({
  measure: laws.measure, runIds: laws.runIds, axles: perAxleOf((axle) => lawJson(laws.axles[axle])),
  total: lawJson(laws.total),
})

/** One speed law: F = 1/2 rho V^2 ClA, its exponent checked, and how ClA moves with the drop where that is known. */
function lawJson(law: SpeedLaw) {
  return {
    cla: statementJson(law.claM2.statement, 'M2'), exponent: statementJson(law.exponent.exponent, ''),
    exponentVerdict: law.exponent.verdict, lowMs: law.lowMs, highMs: law.highMs,
    chiSquare: law.chiSquare, dof: law.dof, pValue: law.pValue, birge: law.birge,
    height: law.height && {
      atDropMm: law.height.atDropMm, lowMm: law.height.lowMm, highMm: law.height.highMm,
      cla: estimate(law.height.claM2, 'M2'), slope: estimate(law.height.slopeM2PerMm, 'M2PerMm'),
    },
    points: law.points.map((each) => ({
      runId: each.runId, speed: estimate(each.speedMs, 'Ms'), drop: maybe(each.dropMm, 'Mm'),
      cla: statementJson(each.claM2.statement, 'M2', { brief: true }), weight: each.weight, residual: each.residual,
    })),
  }
}

const heightJson = (at: Pick<HeightPoint, 'dropMm' | 'clearanceMm' | 'state'>, axle: Axle, how: { brief?: boolean } = {}) => ({
  drop: statementJson(at.dropMm[axle], 'Mm', how), clearance: statementJson(at.clearanceMm[axle], 'Mm', how),
  state: at.state[axle],
})

function springJson(answer: SpringAnswer | null | undefined) {
  if (!answer) return null
  const { needed, springs } = answer
  return {
    neededWheelRate: statementJson(needed.wheelRateNPerMm, 'NPerMm'),
    neededAxleRate: statementJson(needed.axleRateNPerMm, 'NPerMm'),
    presentAxleRate: statementJson(needed.presentRateNPerMm, 'NPerMm'),
    presentWheelRate: statementJson(answer.needed.presentWheelRateNPerMm, 'NPerMm'),
    timesPresent: statementJson(needed.timesPresent, ''),
    springs: springs.map((each) => ({
      springId: each.springId, wheelRate: statementJson(each.wheelRateNPerMm, 'NPerMm'),
      clearance: statementJson(each.clearanceMm, 'Mm'), touchDown: statementJson(each.touchDownMs, 'Ms'),
      probabilityHolds: each.probabilityHolds,
    })),
  }
}

function comparisonJson(comparison: Comparison) {
  const chance = ({ probabilityLarger: { kind, value }, pValue }: Difference) =>
    ({ pValue, probabilityLarger: kind === 'untold' ? { kind } : { kind, value } })
  return {
    configurationA: comparison.configurationA, configurationB: comparison.configurationB, measure: comparison.measure,
    total: statementJson(comparison.total.differenceM2.statement, 'M2'), ...chance(comparison.total),
    axles: perAxleOf((axle) =>
      ({ difference: statementJson(comparison.axles[axle].differenceM2.statement, 'M2'), ...chance(comparison.axles[axle]) })),
    frontShareMove: statementJson(comparison.balanceMove, ''), smallestDetectableM2: comparison.smallestDetectableM2,
    shrinksM2: comparison.shrinksM2, staysM2: comparison.staysM2,
  }
}

/** Understeer gradients, rad per m/s2, one set-up after another, and the chosen corner. */
function balanceJson({ sessionId, gradients, gradientChanges, corners }: TrackResult) {
  return {
    sessionId,
    gradients: gradients.map((each) => ({
      runId: each.runId, configurationId: each.configurationId, tendency: each.tendency, dof: each.dof,
      gradient: statementJson(each.statement, 'RadPerMs2'),
    })),
    gradientChanges: gradientChanges.map((each) => ({
      beforeId: each.beforeId, afterId: each.afterId, tendency: each.tendency,
      before: statementJson(each.before, 'RadPerMs2'), after: statementJson(each.after, 'RadPerMs2'),
      difference: statementJson(each.difference, 'RadPerMs2'),
    })),
    corners: corners.map((each) => ({
      configurationId: each.configurationId, speedMs: each.speedMs, tendency: each.tendency,
      carried: perAxleOf((axle) => statementJson(each.carried[axle], '')),
      frontOverRear: statementJson(each.frontOverRear, ''),
    })),
  }
}

function groupJson({ sessionId, sensitivity }: TrackResult, group: TrackGroup) {
  return {
    sessionId, manoeuvre: group.manoeuvre, radiusM: group.radiusM,
    drift: { verdict: group.drift.verdict, perRun: statementJson(group.drift.perRun, '') },
    runScatterMs2: group.runScatterMs2,
    sensitivity: { from: sensitivity.from, ...estimate(sensitivity.sensitivity, '') },
    runs: group.runs.map((run) => ({
      runId: run.runId, configurationId: run.configurationId, order: run.order,
      level: statementJson(run.statement, 'Ms2'), repeats: run.repeats.length, scatterMs2: run.scatterMs2,
      scatterFrom: run.scatterFrom, speed: maybe(run.speedMs, 'Ms'),
      remarks: run.remarks,
    })),
    comparisons: group.comparisons.map(({ agreement, ...each }) => ({
      beforeId: each.beforeId, afterId: each.afterId, difference: statementJson(each.differenceMs2, 'Ms2'),
      gain: statementJson(each.gain.statement, ''), probabilityHigher: each.probabilityHigher, driftRemoved: each.driftRemoved,
      expected: agreement && statementJson(agreement.expected.total.statement, ''),
      verdict: agreement?.verdict ?? null,
      agreement: agreement && {
        difference: statementJson(agreement.difference, ''), normalisedError: agreement.normalisedError,
        weak: agreement.weak,
        expectedByAxle: perAxleOf((axle) => statementJson(agreement.expected.axles[axle].statement, '')),
        loadBefore: statementJson(agreement.expected.beforeN.statement, 'N'),
        loadAfter: statementJson(agreement.expected.afterN.statement, 'N'), atSpeedMs: agreement.atSpeedMs,
        loadNeeded: statementJson(agreement.neededN.statement, 'N'),
        loadLessNeeded: statementJson(agreement.loadDifferenceN, 'N'),
        remarks: agreement.remarks,
      },
      pairs: each.paired && {
        pairs: each.paired.pairs, gain: statementJson(each.paired.gain, ''), pValue: each.paired.pValue,
        beganBefore: each.paired.beganBefore, beganAfter: each.paired.beganAfter, runShare: each.paired.runShare,
      },
      covariates: each.covariates && {
        gain: statementJson(each.covariates.gain, ''), perRun: statementJson(each.covariates.perRun, ''),
        perKelvin: statementJson(each.covariates.perKelvin, ''), dof: each.covariates.dof,
        together: each.covariates.together,
      },
      remarks: each.remarks,
    })),
    remarks: group.remarks,
  }
}

/** The results as JSON, SI units in the keys. README describes the shape. */
import type { Analysis } from '@core/analysis'
import type { Axle, Exchange } from '@core/schema'
import { standardUncertainty, type Uncertain } from '@core/uncertainty'
import { statementJson } from './words'

const forAxles = <T>(make: (axle: Axle) => T): Record<Axle, T> => ({ front: make('front'), rear: make('rear') })
const estimate = (of: Uncertain, suffix: string): Record<string, number> =>
  ({ [`value${suffix}`]: of.value, [`u${suffix}`]: standardUncertainty(of) })

export function asJson(exchange: Exchange, analysis: Analysis): unknown {
  return {
    format: 'squatbench-results', chassisId: exchange.chassis.id, chassisName: exchange.chassis.name,
    gravity: { from: analysis.gravityFrom, ...estimate(analysis.gravityMs2, 'Ms2') },
    squatTests: analysis.squats.map((squat) => ({
      sessionId: squat.sessionId, name: squat.name,
      axles: forAxles((axle) => {
        const curve = squat.axles[axle]
        if (curve.refused) return { refused: curve.code, why: curve.why }
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
            : { shape: each.shape, why: each.why })),
          remarks: curve.remarks,
        }
      }),
    })),
    runs: analysis.airflows.flatMap(({ runs }) => runs.map((run) => ({
      runId: run.runId, sessionId: run.sessionId, name: run.name, configurationId: run.configurationId,
      kind: run.kind, control: run.control,
      speed: run.flow && estimate(run.flow.speedMs, 'Ms'), dynamicPressure: run.flow && estimate(run.flow.dynamicPressurePa, 'Pa'),
      density: estimate(run.air.densityKgM3, 'KgM3'),
      axles: forAxles((axle) => ({
        drop: run.axles[axle].dropMm && estimate(run.axles[axle].dropMm, 'Mm'), touched: run.axles[axle].touched,
        gross: statementJson(run.axles[axle].grossN.statement, 'N'), net: statementJson(run.axles[axle].netN.statement, 'N'),
      })),
      grossTotal: statementJson(run.grossTotalN.statement, 'N'), total: statementJson(run.totalN.statement, 'N'), remarks: run.remarks,
    }))),
    unreadRuns: analysis.airflows.flatMap(({ unread }) => unread),
    configurations: analysis.configurations.map(({ configurationId, name, aero, predictions, touchDowns }) => ({
      configurationId, name,
      claFront: statementJson(aero.axles.front.claM2.statement, 'M2'), claRear: statementJson(aero.axles.rear.claM2.statement, 'M2'),
      claTotal: statementJson(aero.total.claM2.statement, 'M2'),
      frontShare: statementJson(aero.balance.frontShare, ''), centreOfPressure: statementJson(aero.balance.centreMm, 'Mm'),
      predictions: predictions.map((each) => ({
        speedMs: each.speedMs, densityKgM3: each.densityKgM3, extrapolated: each.extrapolated,
        axles: forAxles((axle) => ({
          force: statementJson(each.forceN[axle], 'N'), drop: statementJson(each.dropMm[axle], 'Mm'),
          clearance: statementJson(each.clearanceMm[axle], 'Mm'), state: each.state[axle],
        })),
        total: statementJson(each.totalN, 'N'), weightShare: statementJson(each.weightShare, ''),
      })),
      touchDown: {
        axles: forAxles((axle) => ({ kind: touchDowns.axles[axle].kind, speed: statementJson(touchDowns.axles[axle].speedMs, 'Ms') })),
        first: statementJson(touchDowns.firstMs, 'Ms'),
      },
    })),
    comparisons: (analysis.matrix?.cells ?? []).map(({ comparison, holmP, distinct }) => ({
      configurationA: comparison.configurationA, configurationB: comparison.configurationB, holmP, distinct,
      total: statementJson(comparison.total.differenceM2.statement, 'M2'), probabilityLarger: comparison.total.probabilityLarger,
      axles: forAxles((axle) => statementJson(comparison.axles[axle].differenceM2.statement, 'M2')),
      frontShareMove: statementJson(comparison.balanceMove, ''), smallestDetectableM2: comparison.smallestDetectableM2,
    })),
    track: analysis.tracks.flatMap(({ sessionId, groups }) => groups.map((group) => ({
      sessionId, manoeuvre: group.manoeuvre,
      runs: group.runs.map((run) => ({ runId: run.runId, configurationId: run.configurationId, level: statementJson(run.statement, 'Ms2') })),
      comparisons: group.comparisons.map((each) => ({
        beforeId: each.beforeId, afterId: each.afterId, difference: statementJson(each.differenceMs2, 'Ms2'), gain: statementJson(each.gain.statement, ''),
        expected: each.agreement && statementJson(each.agreement.expected.total.statement, ''), verdict: each.agreement?.verdict ?? null,
      })),
    }))),
    troubles: analysis.troubles,
  }
}

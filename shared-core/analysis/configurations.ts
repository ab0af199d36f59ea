/** Every configuration's aero, and all of them against each other. */
import {
  axleModels, comparisonMatrix, configurationAero, heightsOverSpeed, predict, touchDowns, touchedEarlier,
  type ComparisonMatrix,
} from '@core/aero'
import type { AxleCurves, SessionRuns } from '@core/airflow'
import type { Chassis } from '@core/schema'
import type { AnalysisOptions, ConfigurationResult } from './types'

/** What is known of the set-ups, and of all against each other. */
export interface SetUpResults {
  readonly configurations: readonly ConfigurationResult[]
  readonly matrix: ComparisonMatrix | null
}

/**
 * Results of every configuration that has runs, in the profile's order.
 *
 * @param curves the newest curves, which stand for the springs now fitted
 */
export function configurationResults(
  chassis: Chassis, airflows: readonly SessionRuns[], curves: AxleCurves, options: AnalysisOptions,
): SetUpResults {
  const runs = airflows.flatMap((session) => session.runs)
  const configurations = chassis.configurations.flatMap(({ id, name }): ConfigurationResult[] => {
    const aero = configurationAero(runs, id, chassis)
    if (!aero) return []
    const touch = touchDowns(axleModels(aero, curves, chassis), aero.densityKgM3)
    const own = runs.filter((run) => run.configurationId === id && !run.control)
    return [{
      configurationId: id, name, aero: { ...aero, remarks: [...aero.remarks, ...touchedEarlier(touch, own)] },
      predictions: options.speedsMs.map((speedMs) => predict(aero, curves, chassis, speedMs)),
      heights: wanted(options, id) ? heightsOverSpeed(aero, curves, chassis, options.heightUpToMs) : [],
      touchDowns: touch,
    }]
  })
  const matrix = configurations.length > 0 ? comparisonMatrix(configurations.map(({ aero }) => aero)) : null
  return { configurations, matrix }
}

const wanted = ({ heightsFor }: AnalysisOptions, id: string): boolean => heightsFor === 'all' || heightsFor.includes(id)

/** Every configuration's aero, and all of them against each other. */
import type { ComparisonMatrix } from '@core/aero'
import type { AxleCurves, SessionRuns } from '@core/airflow'
import type { Chassis } from '@core/schema'
import type { AnalysisOptions, ConfigurationResult } from './types'

interface Results { readonly configurations: readonly ConfigurationResult[]; readonly matrix: ComparisonMatrix | null }

export function configurationResults(
  _chassis: Chassis, _airflows: readonly SessionRuns[], _curves: AxleCurves, _options: AnalysisOptions,
): Results {
  return { configurations: [], matrix: null }
}

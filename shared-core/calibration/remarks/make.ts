/** How a remark is made. */
import type { Corner } from '@core/schema'
import type { Remark } from '../types'

/** Values SI, each key with its unit; `at` names the step and corner concerned. */
export const remark = (
  code: string, severity: Remark['severity'], values: Remark['values'] = {},
  at: { stepId?: string; corner?: Corner | null } = {},
): Remark => ({ code, severity, stepId: at.stepId ?? null, corner: at.corner ?? null, values })

/** Beyond this many standard uncertainties chance alone is not believed (two-sided, about 1 in 1000). */
export const BEYOND_CHANCE = 3.29

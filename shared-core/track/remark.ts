/** Remarks of this room, in the shape the calibration room uses; `stepId` names the run. */
import type { Remark } from '@core/calibration/types'

export const remark = (
  code: string, severity: Remark['severity'], values: Remark['values'] = {}, runId: string | null = null,
): Remark => ({ code, severity, stepId: runId, corner: null, values })

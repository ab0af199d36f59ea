/** Remarks of this room, in the shape the calibration room uses. */
import type { Remark } from '@core/calibration/types'

/** A remark about a run: its code, how grave it is, and the values its sentence needs (SI, unit in the key). */
export const remark = (
  code: string, severity: Remark['severity'], values: Remark['values'] = {}, stepId: string | null = null,
): Remark => ({ code, severity, stepId, corner: null, values })

import type { SquatData } from './points'
import type { Calibration, CalibrationRefusal, Remark } from './types'
export function remarksOf(_data: SquatData, _result: Calibration | CalibrationRefusal): Remark[] { return [] }

/** Remarks a builder can act on. Their words stand in the window's catalogue under their codes. */
export { curveRemarks, pureError } from './curve'
export { implausibleRemark, sessionRemarks } from './session'

/** The face of the remark room: what is to be said of a result, before any language. */
export { REMARKS, type RemarkCode, type Severity, type ValueKind } from './codes'
export { aboutReading, byGravity, remark, valuesOf, type About, type Remark, type ValuesOf } from './remark'

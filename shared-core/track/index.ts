/** The face of the track room. */
export * from './types'
export { circleAcceleration } from './circle'
export { runLevel } from './levels'
export { trackCheck, type TrackContext } from './check'
export { expectedGain, gainClaim, predictCircle, type CirclePrediction } from './expected'
export { fitSensitivity, type LoadedLevel, type SensitivityFit } from './sensitivity'
export { agreement, normalisedError } from './agreement'
export * from './log'

/** The face of the calibration room: a squat test to curves, and a drop to the force behind it. */
export * from './types'
export {
  calibrate, calibrateAxles, calibrateCorners, type CalibrateOptions, type CalibrationResult,
} from './calibrate'
export { nameOfCurve } from './names'
export { squatData, type SquatData, type StepDrops } from './points'
export { implausibleReadings, judgedHeight, USUAL_TIMES, type ImplausibleReading } from './plausible'
export { cornerZeros, zeroSteps, type CornerZero } from './zero'
export { repeatabilityOf } from './repeatability'
export { dropBetween, shownAt, type GaugeContext } from './shown'
export { isThin } from './neighbours'
export { readForce } from './force'
export { forceTrials, readForceByMonteCarlo, type NetForce, type StatedForce } from './forceTrials'
export { curveBand, dropAt, evenForces, stiffnessAt, type BandPoint } from './band'
export { implausibleRemark, sessionRemarks } from './remarks/session'
export { axleTheory, springTheory, type SpringTheory } from './theory'
export { verdict, type Verdict } from './verdict'
export { nextLoad, type NextLoad } from './nextLoad'

/** The face of the simulator: a true bench and the documents it would leave behind. */
export { Draws } from './random'
export { Suspension, touchForce, trueDrop, type TrueAxle, type TrueCurve } from './suspension'
export { drawShared, type BenchTruth, type TrueDevice } from './truth'
export {
  Bench, ladder, placeGravity, rounded, type Forces, type PlannedLoad, type PlannedStep, type SquatPlan,
} from './bench'
export {
  airflowSession, airForces, blowerRun, driveByRun, jetPressure, jetSpeed, TRAVERSE,
  type BlowerPlan, type PassPlan, type TrueJet,
} from './airflow'
export { circleAcceleration, circleRun, trackSession, type CirclePlan, type TrueGrip } from './track'
export { lateralAt, LOG_FAULTS, simulatedLog, type LogFault, type LogPlan, type SimulatedLog } from './log'
export { coastSession, gateCoasts, throttleRuns, type CoastTruth } from './coast'

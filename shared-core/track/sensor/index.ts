/** The face of the sensor part: its calibration by six positions, and where it sits in the car. */
export {
  calibrateSensor, gravityAlong, nextFace, type SensorCalibration, type SensorUnfinished,
} from './sixPositions'
export { stillReading, type StillReading, type StillTrouble } from './still'
export { circleFactor, slalomFactor, type SensorPlace } from './place'

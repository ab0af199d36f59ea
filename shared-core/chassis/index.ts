/**
 * The face of the chassis room: gravity, weighed loads and doubts about them, loads to axles, stations to axle
 * drops, statics.
 */
export { localGravity, normalGravity, type Gravity } from './gravity'
export { scaleGain, type CheckResult, type ScaleGain } from './scale'
export { loadMass, weighingScatter, type MassResult, type MassTrouble } from './mass'
export { weightDoubts, type WeightDoubt } from './doubts'
export {
  axleOf, coordinate, cornersOf, isRight, perAxleOf, perCornerOf, placedForces, wheelbase,
  type PlacedForces, type PlacedMass,
} from './placement'
export {
  chassisMotion, stationWeights, weightedDrop,
  type ChassisMotion, type CornerDrops, type CornerWeights, type StationWeights,
} from './stations'
export { groundEffect, otherAxle, type GroundEffect } from './ground'
export { cornerScale, staticLoads, type StaticLoads } from './statics'
export { shownMean, type ShownMean } from './shown'

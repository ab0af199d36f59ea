/** The face of the camera room: from pixels and marks to heights, drops, traces and speeds. */
export { crop, luminanceOf, sampleAt, type Luminance, type Px } from './raster/luminance'
export { MIN_STICKER_RADIUS_PX, snapToSticker, type Snap, type SnapRefusal } from './snap/snap'
export { homography, mapBy, type Homography } from './plane/homography'
export {
  lensFromEdge, straightened, type EdgeMark, type Lens, type LensFit, type LensUntold, type PictureSize,
} from './plane/lens'
export { CLEAR_MISFIT, lensFrom, lensOf, type LensInputs } from './plane/lensOf'
export { focalPx, likelyKind } from './plane/cameraKind'
export { leastSquares } from './plane/linear'
export { propagate } from './plane/propagate'
export { averageMarks, HAND_MARK_U_PX, NUDGE_PX, pointOf, type RepeatedMark } from './height/marks'
export {
  ASSUMED_DEPTH_U_MM, ASSUMED_LEVEL_U_RAD, ASSUMED_TILT_U_RAD, heightModel, type Assumption, type Datum,
  type HeightLack, type HeightModel, type Stage,
} from './height/model'
export {
  cameraBudget, dropBetween, heightOf, readingSourceOf, type CameraBudgetRow, type CameraPart, type HeightResult,
} from './height/height'
export {
  Follower, FOLLOW_LIMITS, LIVE_LIMITS, type FollowEvent, type FollowLimits, type Followed, type LostWhy,
  type StartMark, type StartRefusal,
} from './film/follow'
export { traceOf, type FramePoints, type Trace, type TracePoint } from './film/trace'
export { windowMean, type TimedValue, type WindowMean } from './film/mean'
export { bracketDrop, windowHeight, type WindowHeight } from './film/window'
export { passOf, type PassLack, type PassResult } from './film/pass'
export { crossingOf, FRAME_TIME_U_S, type Crossing, type PassPoint } from './film/speed'
export { readCamera, type CameraSaid } from './files/exif'
export { FINGERPRINT_BYTES, fingerprintOf } from './files/fingerprint'
export {
  HEADER_BYTES, heldSize, isWhole, MAX_SIDE_PX, pixelsStart, readHeader, walkPixels, type PictureFormat,
  type PictureHeader,
} from './files/header'
export { AirWatch, type AirPhase, type AirStretch, type AirView } from './live/air'
export { LiveBench, type CornerHeights, type LiveFrame, type LiveHeights } from './live/bench'
export { Guards, type LiveTrouble } from './live/guards'
export { liveLoads, type LiveAxle } from './live/load'
export { CALM_S, SquatWatch, type ExpectedWay, type SquatPhase, type SquatReading, type SquatView } from './live/squat'

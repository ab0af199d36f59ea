/** Why a result is a bound, or can't be told, in English. Window, report and headless run speak from this one list. */
import type { RefusalCode } from '@core/calibration'
import type { CensorReason, UntoldCode } from '@core/uncertainty'

export const REASONS_EN: Readonly<Record<CensorReason, string>> = {
  touchedGround: 'the tray was on the ground',
  mayTouch: 'the tray may lie on the ground there: the load may be only a lower bound',
  beyondCalibratedRange: 'beyond the loads that were placed',
  belowThreshold: 'below the force at which the suspension starts to move',
  withinFriction: 'inside the friction of the suspension',
  rising: 'the car rose, and no load has lifted this axle in the squat test',
  tooFewLoads: 'too few loads in the squat test to know the shape of the curve',
  memberCensored: 'a part of it is only known as “at least” or “at most”',
  denominatorNearZero: 'the load is too small to form a ratio',
  noFixedPoint: 'no ride height holds there',
  missing: 'a reading that it needs is not there yet',
}

/** `{axle}` stands for the axle that a reason is about. */
export const UNTOLD_EN: Readonly<Record<UntoldCode, string>> = {
  noCurve: 'the {axle} axle has no curve to read by yet: its squat test is missing, or has too few loads',
  noTouchDrop: 'the drop at which the tray touches at the {axle} axle is not entered',
  cornersNotRead: 'too few corners were read for the {axle} axle',
  noneLifted: 'the car rose, and no load has lifted the {axle} axle in the squat test: lay one beyond the other axle',
  mayBePressed: 'the tray on the ground may press the {axle} axle: say on the car’s page where it touches',
  notPressed: 'the {axle} axle is not pressed down: it touches at no speed',
  tyresOutgrow: 'the tyres of the {axle} axle grow faster than it comes down',
  notFree: 'the {axle} axle does not move freely at this speed',
  noRun: 'no run tells this load',
  noLoad: 'its load is not known',
  nearZero: 'the load may be nothing: too close to zero',
  oneSpeed: 'one speed only: it needs runs at clearly different speeds',
  noAxleWeights: 'the corner masses are not entered',
  noMass: 'the mass of the car is not entered',
  noRoom: 'there is not that much room even at rest',
  noHeight: 'no ride height holds at this speed',
  springHoldsNone: 'this spring holds no height at this speed',
  onGround: 'the tray is on the ground at this speed',
  oneEnd: 'the other end is not known',
  movedTogether: 'two of device, order and tyre temperature moved together',
  noGrip: 'no level was held on a circle, or no radius is given',
  notDrivenTwice: 'no set-up was driven twice',
  singleLap: 'one of the two has a single lap, and no other run tells the scatter',
  mayLift: 'one axle may lift',
  bothBounds: 'both axles are only known as bounds',
  allLift: 'the lift would carry the whole car',
  tyreFirst: 'the tyre gives way faster than the curve',
  noBound: 'no bound is left on either side',
  divisorNearZero: 'it is a share of something that may be nothing',
  airAndRolling: 'these coasts can’t part air from rolling: begin faster or roll on longer',
  notRound: 'with these values the car does not get round the course',
  holdsAnySpeed: 'its load grows faster than what this corner takes: grip sets no limit here',
  bothLapsBounds: 'both laps are only known as “at most”',
}

/** Why a shape could not be fitted. */
export const UNFITTED_EN: Readonly<Record<RefusalCode, string>> = {
  badInput: 'These readings allow no fit.',
  tooFewPoints: 'Too few readings or loads for this shape.',
  exactPoint: 'A reading has no uncertainty at all.',
  notIdentifiable: 'The readings do not tell its parameters apart.',
  notConverged: 'No best fit could be found.',
  atBound: 'The readings show no such curve.',
  infeasibleStart: 'The readings show no such curve.',
}

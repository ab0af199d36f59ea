/**
 * Everything that can be remarked: how grave it is, and the values its sentence may need, each with its
 * quantity (SI, unit in the name). A sentence for each code in each language is asked for by the compiler.
 */
import type { Quantity } from '@core/units'

/**
 * What a value is: a figure by its quantity, a gauge's own figure in mm with all its digits, the
 * builder's text, an axle or a curve's shape.
 */
export type ValueKind = Quantity | 'shown' | 'text' | 'axle' | 'shape'
export type Severity = 'note' | 'warning' | 'stop'
type Values = Readonly<Record<string, ValueKind>>

const kind = (severity: Severity) => <const V extends Values = Record<never, ValueKind>>(values?: V) =>
  ({ severity, values: (values ?? {}) as V })
const note = kind('note')
const warning = kind('warning')
const stop = kind('stop')

/** Codes whose sentences need no value. */
const bare = (severity: Severity) => <C extends string>(...codes: readonly C[]) =>
  Object.fromEntries(codes.map((code) => [code, kind(severity)()])) as
    Readonly<Record<C, { severity: Severity; values: Record<never, ValueKind> }>>
const notes = bare('note')
const warnings = bare('warning')
const stops = bare('stop')

/** Which value of a remark is the standard uncertainty of which, in the same quantity; its own of an uncertainty. */
export const U_OF: Readonly<Record<string, string>> = {
  offMm: 'uMm', driftMm: 'uMm', seenMm: 'uMm', givenMm: 'uMm', pressurePa: 'uPa', windMs: 'uMs',
  uMm: 'uMm', uPa: 'uPa', uMs: 'uMs', uN: 'uN', gainU: 'gainU', relativeU: 'relativeU',
}

const OFF = { offMm: 'length', uMm: 'length', sigma: 'number' } as const

export const REMARKS = {
  // Squat test: the session.
  ...stops('zeroNotRead', 'zeroOnlyAfter'),
  ...notes('standardGravity'),
  loadWithoutMass: stop({ load: 'text' }),
  scaleUnchecked: note({ scale: 'text', gainU: 'share' }),
  scaleChecksDisagree: warning({ scale: 'text', pValue: 'number' }),
  readingImplausible: stop({ shownMm: 'shown', expectedMm: 'length' }),
  readingSlipped: stop({ shownMm: 'shown', expectedMm: 'length', suggestedMm: 'shown' }),
  zeroMoved: warning(OFF),
  zeroFollowed: warning(OFF),
  twist: warning({ ...OFF, steps: 'number' }),
  chassisTwists: warning({ ...OFF, steps: 'number' }),
  crossTalk: warning({ ...OFF, axle: 'axle' }),
  sidesDiffer: note({ ...OFF, axle: 'axle', forceN: 'force' }),

  // Squat test: the curve.
  ...stops('noReadings', 'noDrop', 'noShapeFits', 'unknownGauge'),
  ...warnings('frictionUnknown', 'repeatabilityUnknown'),
  ...notes('frictionFromZero'),
  tooFewPoints: stop({ readings: 'number', loads: 'number' }),
  curveDoesNotFit: stop({ axle: 'axle', factor: 'number', xMm: 'length' }),
  lackOfFit: warning({ shape: 'shape', pValue: 'number' }),
  scatterBeyondStated: warning({ factor: 'number', pValue: 'number' }),
  scatterEnlarged: note({ factor: 'number', pValue: 'number' }),
  suspiciousReading: warning({ offMm: 'length', sigma: 'number', ramp: 'number' }),
  suspiciousStep: warning({ offMm: 'length', sigma: 'number', ramp: 'number' }),
  tooFewLoads: warning({ loads: 'number', wanted: 'number' }),
  loadsBadlySpread: warning({ fromN: 'force', toN: 'force' }),
  frictionAssumed: note({ frictionN: 'force' }),
  repeatabilityLearned: note({ uMm: 'length', dof: 'number' }),
  repeatabilityFromScatter: note({ uMm: 'length', dof: 'number' }),
  shapeOpen: note({ shape: 'shape', weight: 'share', other: 'shape', otherWeight: 'share' }),
  touchedStepsBound: note({ steps: 'number' }),
  deeperThanTray: warning({ axle: 'axle', deepestMm: 'length', touchMm: 'length' }),
  touchDisagrees: warning({ seenMm: 'length', givenMm: 'length', uMm: 'length' }),
  scaleGainDominates: note({ share: 'share', uN: 'force' }),
  scaleResolutionDominates: note({ share: 'share', uN: 'force' }),
  placeDominates: note({ share: 'share', uN: 'force' }),

  // Airflow.
  ...stops('nothingRead'),
  ...warnings(
    'accelerationUnknown', 'noControlRun', 'noSpeed', 'noZero', 'oneEndTouched', 'holdingUnknown',
    'holdingNotCounted', 'oneWay', 'openBracket', 'pitchNotRemoved',
  ),
  ...notes('benchAirNotRoadAir', 'noTraverseRepeats', 'linePullUnknown', 'heldByHubs', 'oneReadingWithAir', 'twoWays'),
  zeroDrift: note({ axle: 'axle', driftMm: 'length', uMm: 'length' }),
  zeroHeldByFriction: warning({ axle: 'axle', driftMm: 'length', uMm: 'length' }),
  accelerationPartlyKnown: note({ passes: 'number' }),
  axleNotRead: warning({ axle: 'axle' }),
  controlScaled: note({ factor: 'number' }),
  loweredOnBentCurve: note({ axle: 'axle', staticDropMm: 'length' }),
  noCurve: stop({ axle: 'axle' }),
  touchedByClearance: warning({ axle: 'axle' }),
  trayPlaceUnknown: warning({ axle: 'axle' }),
  farAxlePressed: warning({ axle: 'axle' }),
  farAxlePressedBy: warning({ axle: 'axle', pressedShare: 'share' }),
  lineTakenOff: note({ frontN: 'force', rearN: 'force' }),
  traverseSlip: stop({ point: 'number', repeat: 'number', shownMs: 'speed', suggestedMs: 'speed', othersMs: 'speed' }),
  onePointTraverse: warning({ relativeU: 'share' }),
  pressureAssumed: warning({ pressurePa: 'pressure', uPa: 'pressure' }),
  pressureFromHeight: note({ pressurePa: 'pressure', uPa: 'pressure' }),
  raisedSetUp: warning({ axle: 'axle', staticDropMm: 'length' }),
  statesScatter: warning({ axle: 'axle', factor: 'number' }),
  sessionScatters: note({ factor: 'number' }),
  tyreGrowthUnknown: warning({ axle: 'axle' }),
  tyreRateUnknown: warning({ axle: 'axle' }),
  unknownAnemometer: warning({ relativeU: 'share' }),
  windFound: note({ windMs: 'speed', uMs: 'speed' }),

  // Aero.
  ...notes('bodyworkLeftOut'),
  boundAboveLaw: warning({ axle: 'axle', boundM2: 'area' }),
  runsScatter: warning({ axle: 'axle', factor: 'number', pValue: 'number' }),
  twoMeasures: note({ runs: 'number' }),
  exponentAbove: warning({ axle: 'axle', exponent: 'number', low: 'number', high: 'number' }),
  exponentBelow: warning({ axle: 'axle', exponent: 'number', low: 'number', high: 'number' }),
  holmApplied: note({ pairs: 'number' }),
  touchedEarlier: warning({ axle: 'axle', seenMs: 'speed', lowMs: 'speed' }),
  comparedAsRead: warning({ configurations: 'number' }),
  rankedByBound: warning({ configurations: 'number' }),

  // Track: runs and comparisons.
  ...warnings(
    'loneLap', 'oneRepeat', 'runScatterUnknown', 'orderUnknown', 'orderConfounded', 'launchMayBePower',
    'explainPowerLimit', 'explainOrder',
  ),
  ...notes(
    'orderTwice', 'bendConfounded', 'sensitivityWithoutAero', 'agreementUntold', 'agreementWeak', 'benchOnlyBounds',
    'benchExtrapolated', 'explainTyres', 'explainAirLess', 'explainAirMore',
  ),
  noRepeats: warning({ name: 'text' }),
  noAcceleration: warning({ name: 'text' }),
  repeatStandsOut: warning({ repeat: 'number', levelMs2: 'acceleration', meanMs2: 'acceleration', deviations: 'number' }),
  repeatsDrift: warning({ perRepeat: 'share', repeats: 'number' }),
  levelDrifts: warning({ perRun: 'share', runs: 'number' }),
  runScatterHardlyKnown: note({ dof: 'number' }),
  manyPairs: note({ pairs: 'number' }),
  temperaturesDiffer: warning({ differenceK: 'number' }),
  sensitivityAssumed: note({ low: 'number', high: 'number' }),
  sensitivityMisfit: warning({ chiSquare: 'number', dof: 'number' }),
  lapSlip: stop({ name: 'text', lap: 'number', timeS: 'time', usualS: 'time' }),
  explainBalance: note({ axle: 'axle', gain: 'share' }),
  explainSensitivity: note({ sensitivity: 'number', assumed: 'number' }),

  // Track: logs.
  ...warnings('restMissingBothWays', 'directionNeedsRest'),
  ...notes('lapsNotTold', 'noWholeLap', 'restMeanOnly', 'leanNotRemoved'),
  restMissing: warning({ costMs2: 'acceleration' }),
  timesSpread: warning({ rows: 'number' }),
  directionUnclear: warning({ share: 'share' }),
  restNotStill: warning({ noiseMs2: 'acceleration' }),
  gravityOff: warning({ relative: 'share', shownMs2: 'acceleration' }),
  tiltLarge: warning({ tiltDeg: 'angle' }),
  signalIsVertical: warning({ axis: 'text' }),
  logGaps: note({ gaps: 'number' }),
  logRestarts: warning({ restarts: 'number' }),
  logFilled: note({ samples: 'number' }),
  logInterpolated: note({ jitter: 'number' }),
  segmentsTooShort: note({ segments: 'number' }),
  nothingHeld: warning({ sustainS: 'time' }),
  windowsThinned: note({ windows: 'number', found: 'number' }),
  levelSwings: note({ swingS: 'time' }),
  sustainShort: note({ sustainS: 'time', cutoffHz: 'frequency' }),
} as const

export type RemarkCode = keyof typeof REMARKS

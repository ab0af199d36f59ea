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

const OFF = { offMm: 'length', uMm: 'length', sigma: 'number' } as const

export const REMARKS = {
  // Squat test: the session.
  loadWithoutMass: stop({ load: 'text' }),
  scaleUnchecked: note({ scale: 'text', gainU: 'share' }),
  scaleChecksDisagree: warning({ scale: 'text', pValue: 'number' }),
  zeroNotRead: stop(),
  zeroOnlyAfter: stop(),
  readingImplausible: stop({ shownMm: 'shown', expectedMm: 'length' }),
  readingSlipped: stop({ shownMm: 'shown', expectedMm: 'length', suggestedMm: 'shown' }),
  zeroMoved: warning(OFF),
  zeroFollowed: warning(OFF),
  twist: warning({ ...OFF, steps: 'number' }),
  chassisTwists: warning({ ...OFF, steps: 'number' }),
  crossTalk: warning({ ...OFF, axle: 'axle' }),
  sidesDiffer: note({ ...OFF, axle: 'axle', forceN: 'force' }),
  standardGravity: note(),

  // Squat test: the curve.
  noReadings: stop(),
  tooFewPoints: stop({ readings: 'number', loads: 'number' }),
  noDrop: stop(),
  noShapeFits: stop(),
  unknownGauge: stop(),
  lackOfFit: warning({ shape: 'shape', pValue: 'number' }),
  scatterBeyondStated: warning({ factor: 'number', pValue: 'number' }),
  scatterEnlarged: note({ factor: 'number', pValue: 'number' }),
  suspiciousReading: warning({ offMm: 'length', sigma: 'number', ramp: 'number' }),
  suspiciousStep: warning({ offMm: 'length', sigma: 'number', ramp: 'number' }),
  tooFewLoads: warning({ loads: 'number', wanted: 'number' }),
  loadsBadlySpread: warning({ fromN: 'force', toN: 'force' }),
  frictionAssumed: note({ frictionN: 'force' }),
  frictionUnknown: warning(),
  frictionFromZero: note(),
  repeatabilityUnknown: warning(),
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
  zeroDrift: note({ axle: 'axle', driftMm: 'length', uMm: 'length' }),
  zeroHeldByFriction: warning({ axle: 'axle', driftMm: 'length', uMm: 'length' }),
  accelerationPartlyKnown: note({ passes: 'number' }),
  accelerationUnknown: warning(),
  axleNotRead: warning({ axle: 'axle' }),
  benchAirNotRoadAir: note(),
  controlScaled: note({ factor: 'number' }),
  loweredOnBentCurve: note({ axle: 'axle', staticDropMm: 'length' }),
  noControlRun: warning(),
  noCurve: stop({ axle: 'axle' }),
  noSpeed: warning(),
  noTraverseRepeats: note(),
  noZero: warning(),
  nothingRead: stop(),
  oneEndTouched: warning(),
  touchedByClearance: warning({ axle: 'axle' }),
  trayPlaceUnknown: warning({ axle: 'axle' }),
  farAxlePressed: warning({ axle: 'axle' }),
  farAxlePressedBy: warning({ axle: 'axle', pressedShare: 'share' }),
  lineTakenOff: note({ frontN: 'force', rearN: 'force' }),
  holdingUnknown: warning(),
  holdingNotCounted: warning(),
  linePullUnknown: note(),
  heldByHubs: note(),
  traverseSlip: stop({ point: 'number', repeat: 'number', shownMs: 'speed', suggestedMs: 'speed', othersMs: 'speed' }),
  onePointTraverse: warning({ relativeU: 'share' }),
  oneReadingWithAir: note(),
  oneWay: warning(),
  openBracket: warning(),
  pitchNotRemoved: warning(),
  pressureAssumed: warning({ pressurePa: 'pressure', uPa: 'pressure' }),
  pressureFromHeight: note({ pressurePa: 'pressure', uPa: 'pressure' }),
  raisedSetUp: warning({ axle: 'axle', staticDropMm: 'length' }),
  statesScatter: warning({ axle: 'axle', factor: 'number' }),
  sessionScatters: note({ factor: 'number' }),
  twoWays: note(),
  tyreGrowthUnknown: warning({ axle: 'axle' }),
  tyreRateUnknown: warning({ axle: 'axle' }),
  unknownAnemometer: warning({ relativeU: 'share' }),
  windFound: note({ windMs: 'speed', uMs: 'speed' }),

  // Aero.
  bodyworkLeftOut: note(),
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
  loneLap: warning(),
  oneRepeat: warning(),
  noRepeats: warning({ name: 'text' }),
  noAcceleration: warning({ name: 'text' }),
  repeatStandsOut: warning({ repeat: 'number', levelMs2: 'acceleration', meanMs2: 'acceleration', deviations: 'number' }),
  repeatsDrift: warning({ perRepeat: 'share', repeats: 'number' }),
  levelDrifts: warning({ perRun: 'share', runs: 'number' }),
  runScatterUnknown: warning(),
  runScatterHardlyKnown: note({ dof: 'number' }),
  manyPairs: note({ pairs: 'number' }),
  orderTwice: note(),
  orderUnknown: warning(),
  orderConfounded: warning(),
  temperaturesDiffer: warning({ differenceK: 'number' }),
  launchMayBePower: warning(),
  sensitivityAssumed: note({ low: 'number', high: 'number' }),
  sensitivityMisfit: warning({ chiSquare: 'number', dof: 'number' }),
  sensitivityWithoutAero: note(),
  lapSlip: stop({ name: 'text', lap: 'number', timeS: 'time', usualS: 'time' }),
  agreementWaitsForLap: stop(),
  agreementUntold: note(),
  agreementWeak: note(),
  benchOnlyBounds: note(),
  benchExtrapolated: note(),
  explainPowerLimit: warning(),
  explainOrder: warning(),
  explainBalance: note({ axle: 'axle', gain: 'share' }),
  explainSensitivity: note({ sensitivity: 'number', assumed: 'number' }),
  explainTyres: note(),
  explainAirLess: note(),
  explainAirMore: note(),

  // Track: logs.
  restMissing: warning({ costMs2: 'acceleration' }),
  restMissingBothWays: warning(),
  timesSpread: warning({ rows: 'number' }),
  directionNeedsRest: warning(),
  directionUnclear: warning({ share: 'share' }),
  lapsNotTold: note(),
  noWholeLap: note(),
  restMeanOnly: note(),
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
  leanNotRemoved: note(),
  windowsThinned: note({ windows: 'number', found: 'number' }),
  sustainShort: note({ sustainS: 'time', cutoffHz: 'frequency' }),
} as const

export type RemarkCode = keyof typeof REMARKS

/**
 * Sessions: a squat test, an airflow session (blower or passes before a camera), a track check, or coasts.
 * One file each. Everything a session needs from the chassis it names by id.
 */
import { z } from 'zod'
import { picture } from './picture'
import { reading, settle, touched } from './reading'
import {
  between, correction, id, measured, moment, name, note, SCHEMA_VERSION, setAside, standardUncertainty,
} from './scalars'
import { refuseTwins } from './twins'

const head = {
  schemaVersion: z.literal(SCHEMA_VERSION),
  id,
  chassisId: id,
  revision: z.number().int().min(0),
  name,
  note,
  createdAt: moment,
}

// --- squat test ---------------------------------------------------------------------------------

/** A place on the car seen from above, mm. */
const spot = { xMm: between(-1000, 3000), yMm: between(-1000, 1000) }

/** A load lying on the car: which, where (centre of mass), and how well the place is known. */
export const placedLoad = z.strictObject({
  loadId: id,
  ...spot,
  uPlaceMm: standardUncertainty(500),
  /** Places it was said to lie at before they were put right, oldest first. */
  corrections: z.array(correction(z.strictObject(spot))).max(10_000).optional(),
})

/**
 * One step of the squat test: what lay on the car, and from which side it was reached.
 * `zero` steps carry no load; the first is the zero of the session, later ones check its return.
 */
export const squatStep = z.strictObject({
  id,
  branch: z.enum(['zero', 'loading', 'unloading']),
  ramp: z.number().int().min(1).max(1000),
  placed: z.array(placedLoad).max(100),
  touched,
  note,
  setAside,
})

/** How one ramp is walked. */
export const loadOrder = z.enum(['upDown', 'upOnly', 'random'])

export const squatSession = z.strictObject({
  ...head,
  kind: z.literal('squat'),
  setup: z.strictObject({
    gaugeId: id,
    settle,
    /** Where the readings go, as in a run's `datum`; where left out, as in the runs that it reads. */
    datum: z.enum(['hubToChassis', 'groundToChassis']).optional(),
    order: loadOrder,
    /** Friction assumed where only one branch was read: half the gap between the branches, N. */
    assumedFrictionN: z.strictObject({ front: between(0, 1e4), rear: between(0, 1e4) }).nullable(),
    /** "Good enough": the wished half-width of the 95 % interval at the wished force on an axle. */
    wished: z.strictObject({ forceN: between(0.001, 1e5), halfWidthN: between(1e-4, 1e5) }).nullable(),
  }),
  steps: z.array(squatStep).max(5000),
  readings: z.array(reading).max(20_000),
  pictures: z.array(picture).max(500),
})

// --- airflow ------------------------------------------------------------------------------------

/**
 * The air of a run. Density comes from temperature, pressure and humidity (CIPM-2007); where
 * `pressurePa` is null it is taken from `heightM` by the standard atmosphere (ISO 2533).
 */
export const air = z.strictObject({
  temperatureK: measured(220, 340),
  pressurePa: measured(20_000, 120_000).nullable(),
  heightM: measured(-500, 9000).nullable(),
  relativeHumidity: measured(0, 1),
})

/** One point of the traverse across the jet, seen from ahead: y to the right, z up, mm. */
export const traversePoint = z.strictObject({
  id,
  yMm: between(-5000, 5000),
  zMm: between(-5000, 5000),
  /** Share of the jet this point stands for; equal shares where null. */
  weight: between(0, 1e6).nullable(),
  shownMs: z.array(between(0, 200)).max(200),
})

export const traverse = z.strictObject({ anemometerId: id, points: z.array(traversePoint).max(500) })

/**
 * Timing of one pass: two gates a known distance apart, and the moments of the car's nose at them,
 * s on one clock. A third gate at `distanceFarMm` from the first gives the acceleration.
 */
export const gateTiming = z.strictObject({
  distanceMm: measured(10, 1e6),
  firstS: between(0, 1e6),
  secondS: between(0, 1e6),
  thirdS: between(0, 1e6).nullable(),
  distanceFarMm: measured(10, 2e6).nullable(),
  uTimeS: standardUncertainty(10),
})

/**
 * One state in which corners were read: air off or on (blower), or at rest or passing (drive-by,
 * `off` = at rest or rolling slowly). `atS`: seconds since the run's start, for the drift.
 */
export const airState = z.strictObject({
  id,
  air: z.enum(['off', 'on']),
  atS: between(0, 1e6),
  pass: z.strictObject({ direction: z.enum(['out', 'back']), timing: gateTiming }).nullable(),
  touched,
  note,
  setAside,
})

/**
 * What keeps a blown car from being pushed back. The height at which it is held decides how its drag
 * moves load from the front axle to the rear one; on the road it is held at the ground, by its tyres.
 * Null stands for what was not measured.
 */
export const holding = z.discriminatedUnion('how', [
  /** Wheels that can't turn, stopped at the ground. */
  z.strictObject({ how: z.literal('wheelsLocked') }),
  /** Wheels that turn freely against chocks: these push through the hub. */
  z.strictObject({ how: z.literal('wheelsFree'), hubHeightMm: measured(1, 500).nullable() }),
  /**
   * A line forwards from a hook on the car, wheels free. `fallDeg`: how steeply it falls from the car to
   * its anchor, + pulls the car down. `pullN`: pull along the line read while the air blew.
   */
  z.strictObject({
    how: z.literal('line'), hookXMm: measured(-1000, 3000).nullable(), hookHeightMm: measured(0, 1000).nullable(),
    fallDeg: measured(-60, 60).nullable(), pullN: measured(0, 1000).nullable(),
  }),
])

const runHead = {
  id,
  name,
  configurationId: id,
  /** A control run: the device off (or shielded) in the same air; its load is subtracted. */
  control: z.boolean(),
  /** Where the readings go: hub to chassis leaves the tyre out, ground to chassis carries it. */
  datum: z.enum(['hubToChassis', 'groundToChassis']),
  settle,
  gaugeId: id,
  air,
  states: z.array(airState).max(2000),
  readings: z.array(reading).max(20_000),
  /** Set-up height of this run's zero against the squat test's zero, mm, front and rear, + is lower. */
  staticDropMm: z.strictObject({ front: between(-100, 100), rear: between(-100, 100) }),
  note,
  setAside,
}

export const blowerRun = z.strictObject({
  ...runHead,
  kind: z.literal('blower'),
  setting: z.string().max(200),
  jet: z.enum(['open', 'ducted']),
  /** How the car was held; where left out, nobody told. */
  held: holding.optional(),
  traverse,
})

export const driveByRun = z.strictObject({ ...runHead, kind: z.literal('driveBy') })

export const airRun = z.discriminatedUnion('kind', [blowerRun, driveByRun])

export const airflowSession = z.strictObject({
  ...head,
  kind: z.literal('airflow'),
  /** The squat test whose curves read these runs; null takes the chassis' newest. */
  squatSessionId: id.nullable(),
  runs: z.array(airRun).max(500),
  pictures: z.array(picture).max(500),
})

// --- track check --------------------------------------------------------------------------------

const trackHead = {
  id,
  name,
  configurationId: id,
  /** Place of this run in the day's order, from 1: shows a drift of tyres or surface. */
  order: z.number().int().min(1).max(10_000),
  surfaceTemperatureK: between(220, 360).nullable(),
  /** Of the tyres as the run began, by a probe or a pyrometer. */
  tyreTemperatureK: measured(220, 450).optional(),
  tyreNote: note,
  /** Mass put on the car for this run, spread so that the static balance stays; shows the tyres' load sensitivity. */
  ballastKg: measured(0, 50).optional(),
  note,
  setAside,
}

/** Laps of a circle of known radius (path of the centre of gravity), one time each. */
export const circleRun = z.strictObject({
  ...trackHead,
  kind: z.literal('circle'),
  radiusM: measured(0.1, 1000),
  uTimeS: standardUncertainty(10),
  lapsS: z.array(z.strictObject({ id, timeS: between(0.05, 3600), setAside })).max(1000),
})

/** How a car is driven to show what its tyres can take. */
export const MANOEUVRES = ['circle', 'slalom', 'launch', 'braking', 'other'] as const
export const manoeuvre = z.enum(MANOEUVRES)

/** What a level is told by beside itself, where the builder said it. */
const course = {
  manoeuvre,
  /** Relative standard uncertainty of the accelerometer's scale, shared by all runs of the session. */
  sensorScaleU: standardUncertainty(0.5).optional(),
  speedMs: measured(0, 200).nullable(),
  /** Radius of the path of the centre of gravity, on a circle. */
  radiusM: measured(0.1, 1000).optional(),
  /** Cone to cone, in a slalom. */
  coneSpacingM: measured(0.1, 200).optional(),
  /** First metres over which a launch counts. */
  overM: between(0.1, 1000).optional(),
}

/**
 * A sustained level read out of an acceleration log. The log stays with the builder; its name,
 * fingerprint, the choices made and the level with its standard uncertainty are kept.
 */
export const logRun = z.strictObject({
  ...trackHead,
  ...course,
  kind: z.literal('log'),
  fileName: name,
  fingerprint: z.string().max(200),
  cutoffHz: between(0.01, 1000),
  sustainS: between(0.01, 600),
  /** What each level is the mean of; where left out, of windows as an earlier version chose them. */
  taken: z.enum(['laps', 'swings', 'pieces', 'halfCycles', 'launches', 'chosen']).optional(),
  levelsMs2: z.array(measured(0, 500)).min(1).max(1000),
  /** Degrees of freedom of each level's u; infinite where not given. */
  levelDofs: z.array(between(0.5, 1e9)).max(1000).optional(),
  /** Which way each level went; all one way where not given. */
  levelSigns: z.array(z.union([z.literal(1), z.literal(-1)])).max(1000).optional(),
  /** Standard uncertainty of what the sensor shows of nothing: it lifts one way what it lowers the other. */
  zeroUMs2: standardUncertainty(50).optional(),
  /** Which way round it was driven, where it was one way alone. */
  turn: z.enum(['right', 'left']).optional(),
  /** The sensor that logged it, with its own calibration. */
  accelerometerId: id.optional(),
})

/** Levels typed from what a logger or a phone displays. */
export const typedRun = z.strictObject({
  ...trackHead,
  ...course,
  kind: z.literal('typed'),
  levels: z.array(z.strictObject({ id, shownMs2: between(0.001, 500), setAside })).max(1000),
  /** Standard uncertainty of one displayed level: its last digit, and what the display averages over. */
  uShownMs2: standardUncertainty(100),
})

/**
 * Steady circles at several speeds below the limit, at one held steering or with the steering logged:
 * what the understeer gradient is read from (ISO 4138). Nothing of grip is read from them.
 */
export const steadyRun = z.strictObject({
  ...trackHead,
  kind: z.literal('steady'),
  steering: z.enum(['held', 'logged']),
  uRadiusM: standardUncertainty(100),
  uTimeS: standardUncertainty(10),
  uSteerDeg: standardUncertainty(20),
  points: z.array(z.strictObject({
    id,
    radiusM: between(0.1, 1000),
    lapS: between(0.05, 3600),
    /** Mean angle of the front wheels; null where it was held and not measured. */
    steerDeg: between(-60, 60).nullable(),
    setAside,
  })).max(200),
})

export const trackRun = z.discriminatedUnion('kind', [circleRun, logRun, typedRun, steadyRun])

export const trackSession = z.strictObject({
  ...head,
  kind: z.literal('track'),
  /**
   * Tyre friction against load, mu(W) = mu0 (W/W0)^-sensitivity with W0 the static weight;
   * null where the builder knows nothing of it.
   */
  tyreLaw: z.strictObject({ sensitivity: measured(-0.5, 0.9) }).nullable(),
  /** The comparison that the builder has in mind: the order to drive in stands until it is planned anew. */
  plan: z.strictObject({
    beforeId: id,
    afterId: id,
    /** Relative gain that is to be found. */
    wishedShare: between(0.0005, 2),
    /** Configurations by turns. */
    order: z.array(id).min(2).max(200),
    /** Runs up to this place in the day's order came before the plan; 0 where left out. */
    afterOrder: z.number().int().min(0).max(10_000).optional(),
  }).optional(),
  /** The corner that the balance is told for. */
  corner: z.strictObject({ speedMs: between(0.1, 200), radiusM: between(0.1, 1000).nullable() }).optional(),
  runs: z.array(trackRun).max(2000),
})

// --- coasts -------------------------------------------------------------------------------------

/** Moments at which gates were passed on a coast, all on one clock; the first gate stands at 0 mm. */
const coastGates = z.strictObject({
  kind: z.literal('gates'),
  gates: z.array(z.strictObject({ id, distanceMm: measured(0, 1e6), timeS: between(0, 1e6) })).max(12),
  uTimeS: standardUncertainty(10),
})

/** Speeds of a coast out of a log: the log stays with the builder, the stretch in hand is kept. */
const coastSpeeds = z.strictObject({
  kind: z.literal('speeds'),
  fileName: name,
  fingerprint: z.string().max(200),
  readings: z.array(z.strictObject({ timeS: between(0, 1e6), speedMs: between(0, 200) })).max(5000),
  /** Standard uncertainty of one speed; null to learn it from the scatter. */
  uSpeedMs: standardUncertainty(20).nullable(),
  uTimeS: standardUncertainty(10),
})

/** Turns of a wheel: the moments of its pulses, and how far the car goes from one to the next. */
const coastPulses = z.strictObject({
  kind: z.literal('pulses'),
  fileName: name,
  fingerprint: z.string().max(200),
  perPulseMm: measured(1, 10_000),
  timesS: z.array(between(0, 1e6)).max(5000),
  uTimeS: standardUncertainty(10),
})

/** One run along a straight: let go to coast down, or driven at full throttle. */
export const coastRun = z.strictObject({
  id,
  name,
  configurationId: id,
  purpose: z.enum(['coast', 'fullThrottle']),
  direction: z.enum(['out', 'back']),
  /** What still turned with the wheels: nothing (pinion out), the gears behind an open clutch, or the motor. */
  drivetrain: z.enum(['pinionOut', 'clutchOpen', 'motorTurns']),
  /** Mass on the car beyond its own, kg. */
  ballastKg: between(0, 50),
  data: z.discriminatedUnion('kind', [coastGates, coastSpeeds, coastPulses]),
  note,
  setAside,
})

export const coastSession = z.strictObject({
  ...head,
  kind: z.literal('coast'),
  air,
  /** Mass that the turning parts add, as a share of the car's mass. */
  rotatingShare: measured(0, 0.5),
  /** What is known beforehand of the wind along the way out, + from behind, and of its slope, + uphill. */
  windMs: measured(-30, 30),
  slope: measured(-0.2, 0.2),
  /** Relative standard uncertainty of the speeds' scale, shared by all logs of the session. */
  speedScaleU: standardUncertainty(0.2),
  runs: z.array(coastRun).max(500),
})

export const session = z
  .discriminatedUnion('kind', [squatSession, airflowSession, trackSession, coastSession])
  .superRefine(refuseTwins)

export type Session = z.infer<typeof session>
export type SessionKind = Session['kind']
export type SquatSession = z.infer<typeof squatSession>
export type SquatStep = z.infer<typeof squatStep>
export type PlacedLoad = z.infer<typeof placedLoad>
export type AirflowSession = z.infer<typeof airflowSession>
export type AirRun = z.infer<typeof airRun>
export type BlowerRun = z.infer<typeof blowerRun>
export type Holding = z.infer<typeof holding>
export type DriveByRun = z.infer<typeof driveByRun>
export type AirState = z.infer<typeof airState>
export type GateTiming = z.infer<typeof gateTiming>
export type Air = z.infer<typeof air>
export type Traverse = z.infer<typeof traverse>
export type TrackSession = z.infer<typeof trackSession>
export type TrackRun = z.infer<typeof trackRun>
export type CircleRun = z.infer<typeof circleRun>
export type LogRun = z.infer<typeof logRun>
export type CoastSession = z.infer<typeof coastSession>
export type CoastRun = z.infer<typeof coastRun>
export type TypedRun = z.infer<typeof typedRun>
export type SteadyRun = z.infer<typeof steadyRun>
export type Manoeuvre = z.infer<typeof manoeuvre>

/**
 * The chassis profile: everything that stays the same between sessions of one car, with the
 * builder's instruments and loads, so that one file is enough to compute every result.
 *
 * Axes: x rearward from the front axle line, y to the right, z up.
 */
import { z } from 'zod'
import {
  axle, between, correction, id, measured, moment, name, note, perAxle, perCorner, SCHEMA_VERSION,
  setAside, standardUncertainty,
} from './scalars'
import { refuseTwins } from './twins'

/** Where a gauge reads one corner's height. */
export const station = z.strictObject({ xMm: between(-500, 2000), yMm: between(-1000, 1000) })

/**
 * One check of a scale against a mass known better than the scale (a check weight, or counted
 * coins of known mass): the mass, its standard uncertainty and what the scale showed.
 */
export const scaleCheck = z.strictObject({
  id,
  at: moment,
  name,
  knownMassKg: measured(0, 100),
  shownKg: z.array(between(0, 100)).min(1).max(200),
})

/** A kitchen scale. `gainU` is the relative standard uncertainty assumed where no check was made. */
export const scale = z.strictObject({
  id,
  name,
  resolutionKg: between(1e-6, 1),
  gainU: standardUncertainty(0.2),
  checks: z.array(scaleCheck).max(200),
})

/**
 * A height gauge (caliper, feeler stack, dial, rule, or the camera).
 * `scaleU`: relative standard uncertainty shared by all its readings. `zeroUMm`: standard
 * uncertainty of its zero, shared by all readings of one session. `repeatabilityUMm`: standard
 * uncertainty of one reading at the same height, `null` to learn it from repeats.
 */
export const gauge = z.strictObject({
  id,
  name,
  reads: z.enum(['height', 'drop']),
  resolutionMm: between(1e-4, 10),
  scaleU: standardUncertainty(0.2),
  zeroUMm: standardUncertainty(10),
  repeatabilityUMm: standardUncertainty(10).nullable(),
})

/** An anemometer. True speed = shown speed x factor; `factor.u` is shared by all its readings. */
export const anemometer = z.strictObject({
  id,
  name,
  resolutionMs: between(1e-4, 10),
  factor: measured(0.1, 10),
})

/** A face of a sensor that pointed up in the six-position test. */
export const FACES = ['xUp', 'xDown', 'yUp', 'yDown', 'zUp', 'zDown'] as const
export const face = z.enum(FACES)
export type Face = z.infer<typeof face>

/** What the three axes of a sensor at rest showed with one face up, as logged. */
export const faceReading = z.strictObject({
  id,
  up: face,
  shownMs2: z.strictObject({ x: between(-1000, 1000), y: between(-1000, 1000), z: between(-1000, 1000) }),
  /** Where it was read out of a log: how many samples the means are of, and their standard uncertainties. */
  log: z.strictObject({
    count: z.number().int().min(2).max(100_000_000),
    uMs2: z.strictObject({
      x: standardUncertainty(1000), y: standardUncertainty(1000), z: standardUncertainty(1000),
    }),
  }).optional(),
  setAside,
})

/**
 * An acceleration sensor: a logger or a phone. `sixPositions` holds its test against gravity;
 * `levelUDeg` is how far from level a face may have lain, a standard uncertainty. `place` is where it
 * sits in the car, mm ahead and to the right of the centre of gravity.
 */
export const accelerometer = z.strictObject({
  id,
  name,
  sixPositions: z.strictObject({
    at: moment,
    levelUDeg: standardUncertainty(10),
    temperatureK: between(220, 360).nullable(),
    readings: z.array(faceReading).max(600),
  }).nullable(),
  place: z.strictObject({ aheadMm: measured(-1000, 2000), rightMm: measured(-1000, 1000) }).nullable(),
})
export type Accelerometer = z.infer<typeof accelerometer>

/** One weighing of a load. */
export const weighing = z.strictObject({
  id,
  at: moment,
  scaleId: id,
  massKg: between(0, 100),
  corrections: z.array(correction(between(0, 100))).max(10_000),
  setAside,
})

/** A bag of shot or another load; its mass is the mean of its weighings. */
export const load = z.strictObject({ id, name, note, weighings: z.array(weighing).max(500) })

/** One set-up of the bodywork: skirts on or off, wing angle, splitter. */
export const configuration = z.strictObject({
  id, name, note, wingAngleDeg: between(-90, 90).nullable(),
  /** The whole car is measured, no device apart from it: no control run is taken off, and none is asked for. */
  wholeCar: z.boolean().optional(),
})

/**
 * A spring the builder owns or has fitted. Wire and mean coil diameter in mm, shear modulus in Pa;
 * motion ratio = spring travel / wheel travel. `rateNPerMm` is a rate given by its seller, used
 * when the wire is not measured.
 */
export const spring = z.strictObject({
  id,
  name,
  axle: axle.nullable(),
  fitted: z.boolean(),
  wireMm: measured(0.1, 20).nullable(),
  meanCoilMm: measured(0.5, 200).nullable(),
  activeCoils: measured(0.5, 100).nullable(),
  shearModulusPa: measured(1e9, 5e11).nullable(),
  rateNPerMm: measured(1e-4, 1e3).nullable(),
  motionRatio: measured(0.05, 5),
})

/** Drop of the axle line, from the unloaded zero, at which the tray touches the ground. */
const trayTouch = measured(0, 500).nullable()

/**
 * Where an end of the tray meets the ground first. Between the axle lines the ground lifts both axles;
 * `beyondMm` past its own axle line (a splitter ahead of the front one, a diffuser behind the rear one),
 * null where that is not measured, it lifts that axle and presses the other.
 */
export const trayEnd = z.discriminatedUnion('where', [
  z.strictObject({ where: z.literal('betweenAxles') }),
  z.strictObject({ where: z.literal('beyondAxle'), beyondMm: measured(0, 1000).nullable() }),
])

/**
 * What a tyre does to ground-to-chassis readings. `rateNPerMm`: vertical rate of both tyres of the
 * axle together. `growthMmPerMs2`: rise of the hub per squared road speed, mm/(m/s)^2.
 */
export const tyres = z.strictObject({
  rateNPerMm: measured(0.1, 1e5).nullable(),
  growthMmPerMs2: measured(0, 1).nullable(),
})

/** What a new car comes with, to be corrected or confirmed by the builder. */
export const guess = z.enum(['wheelbase', 'trackFront', 'trackRear', 'gauges', 'scales', 'anemometers'])

/** A piece of a course; a corner by the radius of the path and how far it turns, either way. */
export const courseSegment = z.discriminatedUnion('kind', [
  z.strictObject({ id, kind: z.literal('straight'), lengthM: between(0.1, 10_000) }),
  z.strictObject({ id, kind: z.literal('corner'), radiusM: between(0.1, 10_000), turnDeg: between(1, 720) }),
])

/** A closed course of the builder's own, and the distance of a launch from rest on it. */
export const course = z.strictObject({
  id,
  name,
  note,
  segments: z.array(courseSegment).max(200),
  launchM: between(0.1, 1000),
})

/** What drives the car: power at the wheels, null to find it from a full-throttle run; the driven share of its load. */
export const drive = z.strictObject({
  powerW: measured(0.1, 1e5).nullable(),
  drivenShare: between(0.05, 1),
  /** Level that the tyres hold without any air load, m/s2; null takes it from the track check. */
  gripMs2: measured(0.1, 100).nullable(),
})

const plainChassis = z.strictObject({
  schemaVersion: z.literal(SCHEMA_VERSION),
  id,
  revision: z.number().int().min(0),
  name,
  note,
  createdAt: moment,
  wheelbaseMm: measured(20, 2000),
  trackMm: perAxle(between(10, 1000)),
  massKg: measured(0.01, 100).nullable(),
  cornerMassesKg: perCorner(between(0, 100)).nullable(),
  /** The scale that weighed the corners; where left out or null, the first one. */
  cornerScaleId: id.nullable().optional(),
  cgHeightMm: measured(0, 500).nullable(),
  stations: perCorner(station),
  trayTouchMm: perAxle(trayTouch),
  /** Where each end of the tray touches; where left out or null, nobody told. */
  trayEnds: perAxle(trayEnd.nullable()).optional(),
  tyres: perAxle(tyres).nullable(),
  /** For local gravity; `null` takes the standard 9.80665 m/s2, and results say so. */
  place: z.strictObject({ latitudeDeg: between(-90, 90), heightM: between(-500, 9000) }).nullable(),
  scales: z.array(scale).max(50),
  gauges: z.array(gauge).max(50),
  anemometers: z.array(anemometer).max(50),
  accelerometers: z.array(accelerometer).max(50).optional(),
  loads: z.array(load).max(500),
  configurations: z.array(configuration).max(200),
  springs: z.array(spring).max(200),
  /** Where the car is driven, and by what; where left out, nothing is known. */
  courses: z.array(course).max(50).optional(),
  drive: drive.optional(),
  /** Road speed that the builder wants the answer at, m/s; where left out, nobody asked for one. */
  askedSpeedMs: between(0.1, 150).optional(),
  /** What still stands as the new car came with it; where left out, everything was entered. */
  guesses: z.array(guess).max(10).optional(),
  /** What the builder says is not known, so that nobody asks for it again. */
  notKnown: z.array(z.enum(['trayTouch'])).max(10).optional(),
})

export const chassis = plainChassis.superRefine(refuseTwins)

export type Chassis = z.infer<typeof chassis>
export type Guess = z.infer<typeof guess>
export type Station = z.infer<typeof station>
export type Scale = z.infer<typeof scale>
export type ScaleCheck = z.infer<typeof scaleCheck>
export type Gauge = z.infer<typeof gauge>
export type Anemometer = z.infer<typeof anemometer>
export type Load = z.infer<typeof load>
export type Weighing = z.infer<typeof weighing>
export type Configuration = z.infer<typeof configuration>
export type Spring = z.infer<typeof spring>
export type Course = z.infer<typeof course>
export type CourseSegment = z.infer<typeof courseSegment>
export type Drive = z.infer<typeof drive>
export type TrayEnd = z.infer<typeof trayEnd>
export type Tyres = z.infer<typeof tyres>

/**
 * The demo: an invented car, the "Heron", with an invented builder's bench. Two devices (a plain
 * tray and a wing), the tray with and without skirts, and one run that puts the tray on the ground.
 * A seed draws every hidden error from what the profile states of it.
 */
import { EXCHANGE_FORMAT, SCHEMA_VERSION, type Air, type Chassis, type Exchange, type Load } from '@core/schema'
import {
  airflowSession, airForces, Bench, blowerRun, circleAcceleration, circleRun, coastSession, Draws, driveByRun,
  gateCoasts, jetPressure, ladder,
  placeGravity, rounded, simulatedLog, throttleRuns, touchForce, trackSession, trueDrop, type BenchTruth,
  type CirclePlan, type CoastTruth,
  type LogPlan, type PassPlan, type PlannedLoad, type TrueJet,
} from './simulator'

const WHEELBASE_MM = 257
const MADE = '2031-05-04T08:00:00.000Z'
const SCALE = { id: 'kitchen-scale', resolutionKg: 0.001, gainU: 0.01 }
const GAUGE = { id: 'step-gauge', resolutionMm: 0.05, scaleU: 0.005, zeroUMm: 0.05, repeatabilityUMm: 0.04 }
const CAMERA = { id: 'tripod-camera', resolutionMm: 0.01, scaleU: 0.01, zeroUMm: 0.05, repeatabilityUMm: 0.12 }
const CHECK_KG = { value: 0.5, u: 0.0002 }

/** What the builder thinks each bag holds, kg; five for each end, laid on the axle line. */
const BAGS = [
  { id: 'bag-a', name: 'Bag A, fine shot', kg: 0.12, end: 'front' }, { id: 'bag-b', name: 'Bag B, fine shot', kg: 0.18, end: 'front' },
  { id: 'bag-c', name: 'Bag C, fine shot', kg: 0.2, end: 'front' }, { id: 'bag-d', name: 'Bag D, coarse shot', kg: 0.22, end: 'front' },
  { id: 'bag-e', name: 'Bag E, coarse shot', kg: 0.22, end: 'front' }, { id: 'bag-f', name: 'Bag F, fine shot', kg: 0.12, end: 'rear' },
  { id: 'bag-g', name: 'Bag G, fine shot', kg: 0.18, end: 'rear' }, { id: 'bag-h', name: 'Bag H, fine shot', kg: 0.2, end: 'rear' },
  { id: 'bag-i', name: 'Bag I, coarse shot', kg: 0.22, end: 'rear' }, { id: 'bag-j', name: 'Bag J, coarse shot', kg: 0.22, end: 'rear' },
] as const

const CONFIGURATIONS = [
  { id: 'tray-plain', name: 'Tray, no skirts', note: 'Flat tray with a short diffuser.', wingAngleDeg: null },
  { id: 'tray-skirts', name: 'Tray with skirts', note: 'Same tray, side skirts down to 1 mm.', wingAngleDeg: null },
  { id: 'wing-plain', name: 'Wing, no skirts', note: 'Tray without skirts, rear wing.', wingAngleDeg: 8 },
  { id: 'wing-skirts', name: 'Wing and skirts', note: 'Tray with skirts, rear wing.', wingAngleDeg: 8 },
]

const DEVICES: BenchTruth['devices'] = [
  { configurationId: 'tray-plain', clAM2: { front: 0.0085, rear: 0.0102 } },
  { configurationId: 'tray-skirts', clAM2: { front: 0.0152, rear: 0.0186 } },
  { configurationId: 'wing-plain', clAM2: { front: 0.0064, rear: 0.0218 } },
  { configurationId: 'wing-skirts', clAM2: { front: 0.0129, rear: 0.0295 } },
]

const JETS = {
  half: { middleMs: 21, fallAcross: 0.14, fallUp: 0.08 },
  full: { middleMs: 30, fallAcross: 0.14, fallUp: 0.08 },
} satisfies Record<string, TrueJet>

const AIR: Air = {
  temperatureK: { value: 291.15, u: 0.5 }, pressurePa: { value: 100_900, u: 100 }, heightM: null,
  relativeHumidity: { value: 0.55, u: 0.05 },
}
/** Moist air at the values above as an ideal gas: 2064 Pa is the vapour pressure over water at 18 C. */
const DENSITY_KG_M3 = (100_900 - 0.378 * 0.55 * 2064) / (287.05 * 291.15)

/** What the documents hold that is not read from an instrument. */
function profile(): Chassis {
  return {
    schemaVersion: SCHEMA_VERSION, id: 'heron', revision: 1, name: 'Heron 10', note: 'Invented demo car.', createdAt: MADE,
    wheelbaseMm: { value: WHEELBASE_MM, u: 0.3 }, trackMm: { front: 164, rear: 160 },
    massKg: { value: 1.482, u: 0.002 },
    cornerMassesKg: { frontLeft: 0.352, frontRight: 0.349, rearLeft: 0.392, rearRight: 0.389 },
    cgHeightMm: { value: 24, u: 2 },
    stations: {
      frontLeft: { xMm: 0, yMm: -82 }, frontRight: { xMm: 0, yMm: 82 },
      rearLeft: { xMm: WHEELBASE_MM, yMm: -80 }, rearRight: { xMm: WHEELBASE_MM, yMm: 80 },
    },
    trayTouchMm: { front: { value: 3.6, u: 0.05 }, rear: { value: 3.4, u: 0.05 } },
    trayEnds: { front: { where: 'betweenAxles' }, rear: { where: 'betweenAxles' } },
    courses: [COURSE], drive: { powerW: null, drivenShare: 1, gripMs2: null },
    tyres: null, place: { latitudeDeg: 47.5, heightM: 420 },
    scales: [{ ...SCALE, name: 'Kitchen scale', checks: [] }],
    gauges: [
      { ...GAUGE, name: 'Step gauge', reads: 'height' },
      { ...CAMERA, name: 'Camera on a tripod', reads: 'height' },
    ],
    anemometers: [{ id: 'cup-anemometer', name: 'Cup anemometer', resolutionMs: 0.1, factor: { value: 1, u: 0.03 } }],
    loads: [], configurations: CONFIGURATIONS,
    springs: [
      {
        id: 'front-spring', name: 'Front spring, 1.4 mm wire', axle: 'front', fitted: true,
        wireMm: { value: 1.4, u: 0.01 }, meanCoilMm: { value: 13.2, u: 0.05 }, activeCoils: { value: 6.5, u: 0.2 },
        shearModulusPa: { value: 79.3e9, u: 1e9 },
        rateNPerMm: null, motionRatio: { value: 0.6, u: 0.02 },
      },
      {
        id: 'rear-spring', name: 'Rear spring, 1.3 mm wire', axle: 'rear', fitted: true,
        wireMm: { value: 1.3, u: 0.01 }, meanCoilMm: { value: 13.2, u: 0.05 }, activeCoils: { value: 5.5, u: 0.2 },
        shearModulusPa: { value: 79.3e9, u: 1e9 },
        rateNPerMm: null, motionRatio: { value: 0.74, u: 0.02 },
      },
    ],
  }
}

function drawTruth(draws: Draws, chassis: Chassis): BenchTruth {
  return {
    gravityMs2: placeGravity(chassis),
    wheelbaseMm: draws.normal(WHEELBASE_MM, chassis.wheelbaseMm.u),
    axles: {
      front: { curve: { kind: 'progressive', rateNPerMm: 1.75, growthNPerMm2: 0.24 }, frictionN: 0.22, touchMm: 3.6 },
      rear: { curve: { kind: 'threshold', thresholdN: 0.25, rateNPerMm: 2.45 }, frictionN: 0.12, touchMm: 3.4 },
    },
    rollStiffnessNmm: 26_000,
    scaleGain: draws.normal(1, SCALE.gainU), weighingKg: 0.0004,
    gaugeScale: draws.normal(0, GAUGE.scaleU), gaugeZeroMm: draws.normal(0, GAUGE.zeroUMm),
    repeatabilityMm: GAUGE.repeatabilityUMm, driftMmPerStep: 0.0005,
    loadsKg: Object.fromEntries(BAGS.map(({ id, kg }) => [id, kg + draws.between(-0.004, 0.004)])),
    restMm: { frontLeft: 5.4, frontRight: 5.4, rearLeft: 5.8, rearRight: 5.8 },
    massKg: 1.482, cgHeightMm: draws.normal(24, 2),
    bareClAM2: { front: 0.0021, rear: 0.0028 }, devices: DEVICES,
    anemometerFactor: draws.normal(1, 0.03), densityKgM3: DENSITY_KG_M3,
  }
}

/** The camera has errors of its own, apart from the gauge's. */
const cameraTruth = (truth: BenchTruth, draws: Draws): BenchTruth => ({
  ...truth, gaugeScale: draws.normal(0, CAMERA.scaleU), gaugeZeroMm: draws.normal(0, CAMERA.zeroUMm),
  repeatabilityMm: CAMERA.repeatabilityUMm, driftMmPerStep: 0,
})

function weighed(bench: Bench, chassis: Chassis): Chassis {
  const check = {
    id: 'check-1', at: bench.moment(), name: 'Check weight 500 g', knownMassKg: CHECK_KG,
    shownKg: Array.from({ length: 4 }, () => bench.weigh(CHECK_KG.value)),
  }
  const loads: Load[] = BAGS.map(({ id, name }) => ({
    id, name, note: '',
    weighings: [1, 2].map((n) => ({
      id: `${id}-weighing-${n}`, at: bench.moment(), scaleId: SCALE.id, massKg: bench.weigh(bench.truth.loadsKg[id]!),
      corrections: [], setAside: null,
    })),
  }))
  return { ...chassis, loads, scales: chassis.scales.map((each) => ({ ...each, checks: [check] })) }
}

/** Each rung lays one bag on either axle line. */
function rungs(): PlannedLoad[][] {
  const place = (end: 'front' | 'rear') => BAGS.filter((bag) => bag.end === end)
    .map(({ id }): PlannedLoad => ({ loadId: id, xMm: end === 'front' ? 0 : WHEELBASE_MM, yMm: 0, uPlaceMm: 2 }))
  const rear = place('rear')
  return place('front').map((front, i) => [front, rear[i]!])
}

interface BlowerSpec {
  readonly id: string
  readonly name: string
  readonly configurationId: string
  readonly jet: keyof typeof JETS
  readonly control: boolean
}

const BLOWER_RUNS: readonly BlowerSpec[] = [
  { id: 'control-half', name: 'Control, tray off, half throttle', configurationId: 'tray-plain', jet: 'half', control: true },
  { id: 'tray-half', name: 'Tray, no skirts, half throttle', configurationId: 'tray-plain', jet: 'half', control: false },
  { id: 'skirts-half', name: 'Tray with skirts, half throttle', configurationId: 'tray-skirts', jet: 'half', control: false },
  { id: 'wing-half', name: 'Wing, no skirts, half throttle', configurationId: 'wing-plain', jet: 'half', control: false },
  { id: 'wing-skirts-half', name: 'Wing and skirts, half throttle', configurationId: 'wing-skirts', jet: 'half', control: false },
  { id: 'control-full', name: 'Control, tray off, full throttle', configurationId: 'tray-plain', jet: 'full', control: true },
  { id: 'tray-full', name: 'Tray, no skirts, full throttle', configurationId: 'tray-plain', jet: 'full', control: false },
  { id: 'wing-skirts-full', name: 'Wing and skirts, full throttle', configurationId: 'wing-skirts', jet: 'full', control: false },
]

const PASSES: Omit<PassPlan, 'configurationId' | 'id' | 'name'> = {
  control: false, gaugeId: CAMERA.id, settle: 'bounce', air: AIR, bursts: 0,
  speedsMs: [15.2, 14.8, 15.4, 15.0, 14.9, 15.1], accelerationMs2: 1.2, timeUS: 0.0005,
}

const CIRCLE: Omit<CirclePlan, 'configurationId' | 'id' | 'name' | 'order'> = {
  radiusM: 9, radiusUM: 0.03, laps: 8, driverShare: 0.008, timeUS: 0.01, grip: { mu: 0.86, sensitivity: 0.15 },
}

/** What is true of one blower run: forces on the axles, N. */
export interface TrueRun {
  readonly runId: string
  readonly configurationId: string
  readonly control: boolean
  readonly dynamicPressurePa: number
  /** Device and bare bodywork together, as the suspension feels it. */
  readonly grossN: { readonly front: number; readonly rear: number }
  /** Device alone, as the control run leaves it. */
  readonly netN: { readonly front: number; readonly rear: number }
  readonly touched: { readonly front: boolean; readonly rear: boolean }
}

export interface DemoTruth {
  readonly seed: number
  readonly bench: BenchTruth
  /** Drop of the settled axle, mm, at forces of 0, 1, 2 ... N. */
  readonly settledDropMm: { readonly front: readonly number[]; readonly rear: readonly number[] }
  readonly touchForceN: { readonly front: number; readonly rear: number }
  readonly runs: readonly TrueRun[]
  readonly circleMs2: Readonly<Record<string, number>>
  readonly straight: CoastTruth
  /** The log of a minute on the same circle, with skirts. */
  readonly log: Pick<LogPlan, 'levelMs2' | 'rateHz' | 'lengthS' | 'restS' | 'circleS' | 'leanDeg' | 'biasMs2'> & {
    readonly configurationId: string
    readonly garbledLines: readonly number[]
  }
}

/** A minute of a logger in the car, circles to the left and to the right by turns. */
const LOG: Omit<LogPlan, 'levelMs2'> = {
  rateHz: 100, lengthS: 60, restS: 5, circleS: 11, radiusM: CIRCLE.radiusM, noiseMs2: 0.5, memory: 0.7, blowMs2: 18,
  leanDeg: { x: 3, y: -2 }, biasMs2: { x: 0.12, y: -0.18, z: 0.08 },
  head: ['time (ms),ax (g),ay (g),az (g),speed (km/h)'], delimiter: ',', faultsOfEach: 1,
}
/** Where the car is driven: two straights, a hairpin, a wide corner and a chicane's two halves. */
const COURSE: NonNullable<Chassis['courses']>[number] = {
  id: 'yard', name: 'Yard course', note: '', launchM: 12,
  segments: [
    { id: 'yard-1', kind: 'straight', lengthM: 46 }, { id: 'yard-2', kind: 'corner', radiusM: 5, turnDeg: 180 },
    { id: 'yard-3', kind: 'straight', lengthM: 18 }, { id: 'yard-4', kind: 'corner', radiusM: 9, turnDeg: 60 },
    { id: 'yard-5', kind: 'corner', radiusM: 9, turnDeg: 60 }, { id: 'yard-6', kind: 'straight', lengthM: 22 },
    { id: 'yard-7', kind: 'corner', radiusM: 13, turnDeg: 180 },
  ],
}

/** Drag of the whole car by set-up, m^2: what the coasts have to find. */
const DRAG_M2 = { 'tray-plain': 0.0118, 'tray-skirts': 0.0126, 'wing-skirts': 0.0149 } as const
const COAST_GATES_M = [0, 12, 26, 42, 60]

function coastTruth(truth: BenchTruth): CoastTruth {
  const clas = DEVICES.map(({ configurationId, clAM2 }) =>
    [configurationId, clAM2.front + clAM2.rear + truth.bareClAM2.front + truth.bareClAM2.rear])
  return {
    massKg: truth.massKg, gravityMs2: truth.gravityMs2, turningKg: 0.08, rolling: 0.046, densityKgM3: truth.densityKgM3,
    windMs: 0.6, gustMs: 0.25, slope: 0.002, powerW: 82, cdaM2: DRAG_M2, claM2: Object.fromEntries(clas),
  }
}

/** The log has draws of its own: what is in it moves nothing of the bench. */
const LOG_SEED_STEP = 1_000_003
/** So have the coasts. */
const COAST_SEED_STEP = 2_000_003

/** The demo's documents, its log and the truth behind them. Same seed, same bytes. */
export function makeDemo(seed: number): { exchange: Exchange; log: string; truth: DemoTruth } {
  const draws = new Draws(seed)
  const bare = profile()
  const truth = drawTruth(draws, bare)
  const chassis = weighed(new Bench(draws, truth, bare), bare)
  const bench = new Bench(draws, truth, chassis)
  const squat = bench.squat({
    id: 'squat-may', name: 'Squat test, new springs', gaugeId: GAUGE.id, settle: 'none', order: 'upDown',
    steps: ladder(rungs(), 2, true), wished: { forceN: 4, halfWidthN: 0.3 },
  })
  const blower = airflowSession(bench, 'blower-may', 'Blower, four set-ups', squat.id, BLOWER_RUNS.map((spec) =>
    blowerRun(bench, {
      id: spec.id, name: spec.name, configurationId: spec.configurationId, control: spec.control, gaugeId: GAUGE.id,
      settle: 'bounce', air: AIR, bursts: 3, jet: JETS[spec.jet], setting: spec.jet === 'half' ? 'Half throttle' : 'Full throttle',
    })))
  const camera = new Bench(draws, cameraTruth(truth, draws), chassis)
  const passes = airflowSession(camera, 'passes-may', 'Passes before the camera', squat.id, [
    driveByRun(camera, { ...PASSES, id: 'pass-tray', name: 'Tray, no skirts, 15 m/s', configurationId: 'tray-plain' }),
    driveByRun(camera, { ...PASSES, id: 'pass-skirts', name: 'Tray with skirts, 15 m/s', configurationId: 'tray-skirts' }),
  ])
  const turns = ['tray-plain', 'tray-skirts', 'tray-plain', 'tray-skirts', 'tray-plain', 'tray-skirts']
  const circles: CirclePlan[] = turns.map((configurationId, i) => ({
    ...CIRCLE, id: `circle-${i + 1}`, order: i + 1, configurationId,
    name: configurationId === 'tray-plain' ? 'Circle, no skirts' : 'Circle, skirts',
  }))
  const track = trackSession(bench, 'track-may', 'Circle, 9 m', { sensitivity: { value: 0.15, u: 0.05 } },
    circles.map((each) => circleRun(bench, each)))
  const circleMs2 = Object.fromEntries(circles.map((each) => [each.configurationId, circleAcceleration(bench, each)]))
  const straight = coastTruth(truth)
  const onStraight = new Draws(seed + COAST_SEED_STEP)
  const coasts = coastSession(chassis.id, 'coasts-may', 'Coasts on the long straight', '2031-05-04T16:00:00.000Z', AIR, [
    ...Object.keys(DRAG_M2).flatMap((configurationId) => gateCoasts(onStraight, straight, {
      configurationId, runs: 6, startMs: 15, gatesM: COAST_GATES_M, timeUS: 0.002,
    }, CONFIGURATIONS.find(({ id }) => id === configurationId)!.name)),
    ...throttleRuns(onStraight, straight, 'tray-plain', 2),
  ])
  const plan = { ...LOG, levelMs2: circleMs2['tray-skirts']! }
  const log = simulatedLog(new Draws(seed + LOG_SEED_STEP), plan)
  return {
    log: log.text,
    exchange: {
      format: EXCHANGE_FORMAT, schemaVersion: SCHEMA_VERSION, chassis, sessions: [squat, blower, passes, track, coasts],
    },
    truth: {
      seed, bench: truth,
      settledDropMm: { front: drops(truth, 'front'), rear: drops(truth, 'rear') },
      touchForceN: { front: touchForce(truth.axles.front)!, rear: touchForce(truth.axles.rear)! },
      runs: BLOWER_RUNS.map((spec) => trueRun(bench, spec)),
      circleMs2, straight, log: {
        configurationId: 'tray-skirts', levelMs2: plan.levelMs2, rateHz: plan.rateHz, lengthS: plan.lengthS,
        restS: plan.restS, circleS: plan.circleS, leanDeg: plan.leanDeg, biasMs2: plan.biasMs2,
        garbledLines: [...log.faults.keys()],
      },
    },
  }
}

const drops = (truth: BenchTruth, axle: 'front' | 'rear'): number[] =>
  Array.from({ length: 11 }, (_, forceN) => rounded(trueDrop(truth.axles[axle].curve, forceN), 1e-6))

function trueRun(bench: Bench, { id, configurationId, jet, control }: BlowerSpec): TrueRun {
  const q = jetPressure(JETS[jet], bench.truth.densityKgM3)
  const gross = airForces(bench, configurationId, control, q)
  const bare = airForces(bench, configurationId, true, q)
  const touches = (axle: 'front' | 'rear') => gross[axle] >= touchForce(bench.truth.axles[axle])!
  return {
    runId: id, configurationId, control, dynamicPressurePa: q, grossN: { ...gross },
    netN: { front: gross.front - bare.front, rear: gross.rear - bare.rear },
    touched: { front: touches('front'), rear: touches('rear') },
  }
}

/** A made-up bench for the tests: a straight or bent curve without any uncertainty, and runs typed by hand. */
import type { Calibration } from '@core/calibration'
import { SCHEMA_VERSION, type AirflowSession, type AirRun, type AirState, type Axle, type Chassis, type Reading } from '@core/schema'
import { exact, type Uncertain } from '@core/uncertainty'

const MOMENT = '2031-05-04T09:00:00.000Z'
export const WHEELBASE_MM = 260

export const chassis = (change: Partial<Chassis> = {}): Chassis => ({
  schemaVersion: SCHEMA_VERSION, id: 'car', revision: 1, name: 'Car', note: '', createdAt: MOMENT,
  wheelbaseMm: { value: WHEELBASE_MM, u: 0 }, trackMm: { front: 160, rear: 160 }, massKg: { value: 1.5, u: 0 },
  cornerMassesKg: { frontLeft: 0.375, frontRight: 0.375, rearLeft: 0.375, rearRight: 0.375 },
  cgHeightMm: { value: 26, u: 0 },
  stations: {
    frontLeft: { xMm: 0, yMm: -80 }, frontRight: { xMm: 0, yMm: 80 },
    rearLeft: { xMm: WHEELBASE_MM, yMm: -80 }, rearRight: { xMm: WHEELBASE_MM, yMm: 80 },
  },
  trayTouchMm: { front: { value: 4, u: 0 }, rear: { value: 4, u: 0 } }, tyres: null, place: null,
  scales: [{ id: 'scale', name: 'Scale', resolutionKg: 0.001, gainU: 0.004, checks: [] }],
  gauges: [{
    id: 'gauge', name: 'Gauge', reads: 'height', resolutionMm: 0.01, scaleU: 0, zeroUMm: 0.05, repeatabilityUMm: 0.02,
  }],
  anemometers: [{ id: 'cups', name: 'Cups', resolutionMs: 0.1, factor: { value: 1, u: 0.02 } }],
  loads: [], configurations: ['plain', 'skirts'].map((id) => ({ id, name: id, note: '', wingAngleDeg: null })),
  springs: [], ...change,
})

/** A straight curve, force = rate x drop, known exactly or with an uncertain rate. */
export function straightCurve(
  axle: Axle, rate: number | Uncertain, { touchMm = 4 as number | Uncertain | null, thresholdN = 0 } = {},
): Calibration {
  const rateNPerMm = typeof rate === 'number' ? exact(rate) : rate
  const shape = thresholdN > 0 ? 'threshold' as const : 'linear' as const
  const parameters = [
    ...(thresholdN > 0 ? [{ name: 'thresholdN' as const, estimate: exact(thresholdN) }] : []),
    { name: 'rateNPerMm' as const, estimate: rateNPerMm },
  ]
  return {
    refused: false, of: { kind: 'axle', axle }, sessionId: 'squat', points: [], chosen: shape,
    candidates: [{
      shape, fitted: true, parameters, frictionN: exact(0), frictionFrom: 'none', chiSquare: 1, dof: 1, pValue: 0.3,
      birge: 1, aicc: 0, weight: 1, convergence: { iterations: 1, gradient: 0, step: 0, condition: 1 },
    }],
    span: { rangeN: 10 * rateNPerMm.value, rangeMm: 10, roundN: 1e-6 }, rangeN: 10 * rateNPerMm.value, rangeMm: 10,
    leastN: 0, leastMm: 0, settled: true, repeatability: { uMm: 0, dof: Infinity, from: 'none' }, gravityFrom: 'standard',
    touchMm: typeof touchMm === 'number' ? exact(touchMm) : touchMm, remarks: [], alike: 0, sources: [],
  }
}

export const AIR: AirRun['air'] = {
  temperatureK: { value: 293.15, u: 0 }, pressurePa: { value: 101_325, u: 0 }, heightM: null,
  relativeHumidity: { value: 0.5, u: 0 },
}

export interface TypedState {
  readonly air: 'off' | 'on'
  /** Heights front and rear, mm, alike left and right. */
  readonly heights: readonly [number, number]
  readonly touched?: AirState['touched']
  readonly pass?: AirState['pass']
}

export const statesOf = (typed: readonly TypedState[], runId: string): Pick<AirRun, 'states' | 'readings'> => ({
  states: typed.map(({ air, touched, pass }, i) => ({
    id: `state-${i}`, air, atS: 10 * i, pass: pass ?? null, touched: touched ?? { front: false, rear: false }, note: '',
    setAside: null,
  })),
  readings: typed.flatMap(({ heights: [front, rear] }, i) =>
    ([['frontLeft', front], ['frontRight', front], ['rearLeft', rear], ['rearRight', rear]] as const).map(
      ([corner, shownMm]): Reading => ({
        id: `${runId}-${i}-${corner.toLowerCase()}`, stepId: `state-${i}`, corner, at: MOMENT, shownMm,
        from: { kind: 'gauge' }, corrections: [], setAside: null,
      }))),
})

const headOf = (id: string, change: Partial<AirRun>) => ({
  id, name: id, configurationId: 'plain', control: false, datum: 'hubToChassis' as const, settle: 'bounce' as const,
  gaugeId: 'gauge', air: AIR, staticDropMm: { front: 0, rear: 0 }, note: '', setAside: null, ...change,
})

/** A blower run at an even speed, off / on / off unless said otherwise. */
export function blower(
  id: string, speedMs: number, typed: readonly TypedState[], change: Partial<Extract<AirRun, { kind: 'blower' }>> = {},
): Extract<AirRun, { kind: 'blower' }> {
  return {
    kind: 'blower', setting: 'full', jet: 'open', held: { how: 'wheelsLocked' },
    traverse: {
      anemometerId: 'cups',
      points: [0, 1, 2, 3].map((i) => ({ id: `point-${i}`, yMm: i * 20, zMm: 30, weight: null, shownMs: [speedMs] })),
    },
    ...statesOf(typed, id), ...headOf(id, change), ...change,
  } as Extract<AirRun, { kind: 'blower' }>
}

export function driveBy(
  id: string, typed: readonly TypedState[], change: Partial<Extract<AirRun, { kind: 'driveBy' }>> = {},
): Extract<AirRun, { kind: 'driveBy' }> {
  return { kind: 'driveBy', ...statesOf(typed, id), ...headOf(id, change), ...change } as Extract<AirRun, { kind: 'driveBy' }>
}

/** A pass over 1 m and 2 m at a speed, with an acceleration. */
export function pass(direction: 'out' | 'back', speedMs: number, accelerationMs2 = 0, uTimeS = 0): AirState['pass'] {
  const timeTo = (metres: number) => (accelerationMs2 === 0 ? metres / speedMs
    : (-speedMs + Math.sqrt(speedMs ** 2 + 2 * accelerationMs2 * metres)) / accelerationMs2)
  return {
    direction,
    timing: {
      distanceMm: { value: 1000, u: 0 }, distanceFarMm: { value: 2000, u: 0 }, firstS: 5, secondS: 5 + timeTo(1),
      thirdS: 5 + timeTo(2), uTimeS,
    },
  }
}

export const session = (runs: readonly AirRun[]): AirflowSession => ({
  schemaVersion: SCHEMA_VERSION, id: 'air', chassisId: 'car', revision: 1, name: 'Air', note: '', createdAt: MOMENT,
  kind: 'airflow', squatSessionId: 'squat', runs: [...runs], pictures: [],
})

/** Straight curves of both axles, 2 N/mm and 3 N/mm. */
export const curves = () => ({ front: straightCurve('front', 2), rear: straightCurve('rear', 3) })

/** What each step still misses, most pressing first: judged by what was entered, not by what came along. */
import type { Analysis } from '@core/analysis'
import type { CalibrationResult } from '@core/calibration'
import { AXLES, cellOf, CORNERS, type Chassis, type SquatSession } from '@core/schema'

/** Something a step still misses: a key under `shell.missing`, its sentence's figure, and where it is entered. */
export interface Missing { readonly key: string; readonly count: number; readonly at?: string }

/** Fewest loaded steps from which a curve can be drawn. */
const ENOUGH_STEPS = 3
/** Fewest loads with which a squat test makes sense. */
const ENOUGH_LOADS = 2

const one = (key: string, at: string): Missing => ({ key, count: 1, at })

/** Values that came with a new car count only once they are confirmed; the anemometer's wait until it is used. */
export function missingInChassis(car: Chassis): Missing[] {
  const guesses = car.guesses ?? []
  const weighed = car.cornerMassesKg !== null && CORNERS.every((corner) => car.cornerMassesKg![corner] > 0)
  const trayKnown = car.trayTouchMm.front !== null && car.trayTouchMm.rear !== null
  return [
    ...(guesses.some((each) => /^(wheelbase|track)/.test(each)) ? [one('lengths', 'lengths')] : []),
    ...(!weighed && car.massKg === null ? [one('masses', 'masses')] : []),
    ...(!trayKnown && !car.notKnown?.includes('trayTouch') ? [one('trayTouch', 'tray')] : []),
    ...(car.gauges.length === 0 ? [one('gauge', 'instruments')] : []),
    ...(car.scales.length === 0 ? [one('scale', 'instruments')] : []),
    ...(guesses.includes('gauges') || guesses.includes('scales') ? [one('instruments', 'instruments')] : []),
  ]
}

/** Loads with at least one weighing that counts. */
export const weighedLoads = (car: Chassis): number =>
  car.loads.filter((load) => load.weighings.some((each) => !each.setAside)).length

export function missingInLoads(car: Chassis): Missing[] {
  const weighed = weighedLoads(car)
  return weighed < ENOUGH_LOADS ? [{ key: 'loads', count: ENOUGH_LOADS - weighed }] : []
}

/** What a squat test still misses before its curves can be trusted. */
export function missingInSquat(squat: SquatSession): Missing[] {
  const read = new Set(squat.readings.filter((each) => !each.setAside).map((each) => cellOf(each.stepId, each.corner)))
  const steps = squat.steps.filter((step) => !step.setAside)
  const unread = steps.reduce(
    (sum, step) => sum + CORNERS.filter((corner) => !read.has(cellOf(step.id, corner))).length, 0)
  const loaded = steps.filter((step) => step.placed.length > 0)
  const missing: Missing[] = []
  if (unread > 0) missing.push({ key: 'corners', count: unread })
  if (loaded.length < ENOUGH_STEPS) missing.push({ key: 'loadedSteps', count: ENOUGH_STEPS - loaded.length })
  else if (squat.setup.order === 'upDown' && !loaded.some((step) => step.branch === 'unloading')) missing.push({ key: 'wayDown', count: 1 })
  else if (steps.at(-1)?.branch !== 'zero') missing.push({ key: 'zeroReturn', count: 1 })
  return missing
}

export const NO_SQUAT: readonly Missing[] = [{ key: 'loadedSteps', count: ENOUGH_STEPS }]

/**
 * Curves that the squat tests gave: usable only where one test gave both axles'. While the first result
 * is still being worked out, a whole squat test is trusted to give them.
 */
export function curvesOf(
  result: Analysis | null, { working, wholeSquat }: { working: boolean; wholeSquat: boolean },
): { usable: boolean; missing: Missing[] } {
  if (!result && working && wholeSquat) return { usable: true, missing: [] }
  const tests = result?.squats ?? []
  const fits = ({ refused, remarks }: CalibrationResult): boolean =>
    !refused && !remarks.some(({ code }) => code === 'curveDoesNotFit')
  const usable = tests.some(({ axles }) => AXLES.every((axle) => fits(axles[axle])))
  const last = tests.at(-1)
  const missing = usable ? [] : AXLES.filter((axle) => !last || !fits(last.axles[axle]))
    .map((axle) => ({ key: axle === 'front' ? 'curveFront' : 'curveRear', count: 1 }))
  return { usable, missing }
}

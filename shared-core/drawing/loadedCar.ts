/** What the drawings need, from a set-up at a speed or from the bags of a squat test. */
import type { Balance, Prediction } from '@core/aero'
import {
  chassisMotion, loadMass, localGravity, perAxleOf, placedForces, staticLoads, type CornerDrops,
} from '@core/chassis'
import type { Chassis, PlacedLoad } from '@core/schema'
import { entered, exact, intervalStatement, minus, untold, type Statement } from '@core/uncertainty'
import type { Bag, LoadedCar } from './types'

const sizesOf = (chassis: Chassis): Pick<LoadedCar, 'wheelbaseMm' | 'trackMm' | 'roomMm'> => ({
  wheelbaseMm: chassis.wheelbaseMm.value, trackMm: chassis.trackMm,
  roomMm: perAxleOf((axle) => chassis.trayTouchMm[axle]?.value ?? null),
})

/** A set-up at a road speed. */
export function carAtSpeed(chassis: Chassis, at: Prediction, balance: Balance | null): LoadedCar {
  const share = staticLoads(chassis)?.frontShare.value
  return {
    ...sizesOf(chassis), bags: [],
    axles: perAxleOf((axle) => ({ loadN: at.forceN[axle], clearanceMm: at.clearanceMm[axle], state: at.state[axle] })),
    centreMm: balance && balance.centreMm,
    weightAtMm: share === undefined ? null : chassis.wheelbaseMm.value * (1 - share),
  }
}

/**
 * The car on the bench with its bags, the tray where the readings of that step put it.
 *
 * @param drops of the corners read at the step, mm
 * @param touched where the builder saw it touch
 */
export function carWithBags(
  chassis: Chassis, placed: readonly PlacedLoad[], drops: CornerDrops, touched: Readonly<Record<'front' | 'rear', boolean>>,
): LoadedCar {
  const known = placed.flatMap((each) => {
    const mass = loadMass(chassis, each.loadId)
    return 'massKg' in mass ? [{ each, massKg: mass.massKg }] : []
  })
  const forces = placedForces(chassis, localGravity(chassis.place).ms2, known.map(({ each, massKg }) =>
    ({ massKg, xMm: exact(each.xMm), yMm: exact(each.yMm) })))
  const motion = chassisMotion(chassis, drops)
  const clearance = (axle: 'front' | 'rear'): Statement => {
    const [room, drop] = [chassis.trayTouchMm[axle], motion.axles[axle]]
    if (!room) return untold('missing', { code: 'noTouchDrop', axle })
    if (!drop) return untold('missing', { code: 'cornersNotRead', axle })
    return intervalStatement(minus(entered(room, 'trayTouch', `chassis:touch:${axle}`), drop))
  }
  const bags = placed.map(({ loadId, xMm, yMm }): Bag =>
    ({ xMm, yMm, label: String(chassis.loads.findIndex(({ id }) => id === loadId) + 1) }))
  return {
    ...sizesOf(chassis), bags, centreMm: null, weightAtMm: null,
    axles: perAxleOf((axle) => ({
      loadN: intervalStatement(forces.axles[axle]), clearanceMm: clearance(axle), state: touched[axle] ? 'touching' : 'free',
    })),
  }
}

/**
 * A tray on the ground: which way the ground's reaction moves the load that an axle's springs feel.
 *
 * A reaction R at x behind the front axle line takes R (1 - x/L) off the front axle and R x/L off the
 * rear one (moments about the axle lines, exact statics). Between the lines both are relieved; past
 * one of them that axle is relieved by more than R, and the other is pressed by the rest.
 */
import type { Axle, Chassis, Touched } from '@core/schema'

/**
 * `relieved`: the load is at least what the springs feel. `pressed`: it is at most that. `either`: it
 * can't be said which way, since two reactions pull apart or nobody told where the tray touches.
 */
export type GroundEffect = 'none' | 'relieved' | 'pressed' | 'either'

export const otherAxle = (axle: Axle): Axle => (axle === 'front' ? 'rear' : 'front')

/** What the ground does to an axle when these ends of the tray are on it. */
export function groundEffect({ trayEnds }: Pick<Chassis, 'trayEnds'>, axle: Axle, touched: Touched): GroundEffect {
  const far = otherAxle(axle)
  // Its own end relieves an axle wherever that end lies, so only the far end can press it.
  if (!touched[far]) return touched[axle] ? 'relieved' : 'none'
  const end = trayEnds?.[far] ?? null
  if (end?.where === 'betweenAxles') return 'relieved'
  return end === null || touched[axle] ? 'either' : 'pressed'
}

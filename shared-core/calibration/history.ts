/**
 * What the suspension went through: the forces of every step in order, and on which side of the
 * friction band, and since which turn, each axle and corner stood when it was read.
 */
import {
  coordinate, loadMass, localGravity, placedForces, type MassTrouble, type PlacedForces, type PlacedMass,
} from '@core/chassis'
import type { Chassis, SquatSession, SquatStep } from '@core/schema'
import type { Uncertain } from '@core/uncertainty'
import type { Branch } from './types'

/** A load that has no mass, and why. */
export interface UnweighedLoad { readonly loadId: string; readonly trouble: MassTrouble; readonly stepId: string }

export interface StepForces {
  readonly step: SquatStep
  readonly index: number
  /** Null where a load on the car has no mass. */
  readonly forces: PlacedForces | null
}

/**
 * Forces of every step, set aside or not: they all happened. A load that stays where it lies from
 * one step to the next keeps its placement error; laid down anew it has a new one.
 */
export function stepForces(
  session: SquatSession, chassis: Chassis,
): { steps: StepForces[]; unweighed: UnweighedLoad[] } {
  const gravity = localGravity(chassis.place).ms2
  const masses = new Map<string, ReturnType<typeof loadMass>>()
  const massOf = (loadId: string) => {
    const held = masses.get(loadId) ?? loadMass(chassis, loadId)
    masses.set(loadId, held)
    return held
  }
  const unweighed: UnweighedLoad[] = []
  const laid = new Map<string, number>()
  let before: SquatStep['placed'] = []
  const steps = session.steps.map((step, index): StepForces => {
    let complete = true
    const loads = step.placed.flatMap((load): PlacedMass[] => {
      const { loadId, xMm, yMm, uPlaceMm } = load
      const stays = before.some((each) => each.loadId === loadId && each.xMm === xMm && each.yMm === yMm)
      if (!stays) laid.set(loadId, (laid.get(loadId) ?? 0) + 1)
      const mass = massOf(loadId)
      if ('trouble' in mass) {
        complete = false
        if (!unweighed.some((each) => each.loadId === loadId)) unweighed.push({ loadId, stepId: step.id, ...mass })
        return []
      }
      const name = `place:${session.id}:${loadId}:${laid.get(loadId)}`
      return [{
        massKg: mass.massKg, xMm: coordinate(xMm, uPlaceMm, `${name}:x`), yMm: coordinate(yMm, uPlaceMm, `${name}:y`),
      }]
    })
    before = step.placed
    return { step, index, forces: complete ? placedForces(chassis, gravity, loads) : null }
  })
  return { steps, unweighed }
}

/** Side of the friction band: +1 loading, -1 unloading, 0 settled; and the turn, NaN from rest. */
export interface Motion { readonly sign: -1 | 0 | 1; readonly turnN: number }

/** Forces closer than this share of the largest count as no movement. */
const NO_CHANGE = 1e-6

/**
 * Motion of one axle or corner at every step. A step's own branch says from which side it was
 * reached: where that differs from the last step's force, the builder went past and came back, over
 * the highest load or from the empty car.
 */
export function motions(forces: readonly (number | null)[], steps: readonly SquatStep[], settled: boolean): Motion[] {
  if (settled) return steps.map(() => ({ sign: 0, turnN: NaN }))
  const top = Math.max(0, ...forces.map((each) => each ?? 0))
  let motion: Motion = { sign: 1, turnN: NaN }
  let last = 0
  let moved = false
  return steps.map(({ branch }, i) => {
    const force = forces[i] ?? last
    const change = force - last
    if (Math.abs(change) > NO_CHANGE * top) {
      if (change > 0) motion = branch === 'unloading' ? { sign: -1, turnN: top } : up(motion, last, moved)
      else motion = branch === 'loading' ? { sign: 1, turnN: 0 } : down(motion, last, moved)
      moved = true
    }
    last = force
    return motion
  })
}

const up = (motion: Motion, last: number, moved: boolean): Motion =>
  (!moved || motion.sign === 1 ? (moved ? motion : { sign: 1, turnN: NaN }) : { sign: 1, turnN: last })

const down = (motion: Motion, last: number, moved: boolean): Motion =>
  (!moved ? { sign: -1, turnN: NaN } : motion.sign === -1 ? motion : { sign: -1, turnN: last })

export const branchOf = ({ sign }: Motion): Branch => (sign === 0 ? 'mid' : sign > 0 ? 'loading' : 'unloading')

/** Force on an axle or corner at one step. */
export const forceOn = (forces: PlacedForces, of: { kind: 'axle'; axle: 'front' | 'rear' }
  | { kind: 'corner'; corner: keyof PlacedForces['corners'] }): Uncertain =>
  (of.kind === 'axle' ? forces.axles[of.axle] : forces.corners[of.corner])

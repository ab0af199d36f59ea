/** Simulated squat readings for the tests: a curve, friction by the play model walked step by step, and errors. */
import type { FitData } from '@core/calibration/select/types'
import { shapeCurve } from '@core/calibration/shapes'
import type { Shape } from '@core/calibration/types'
import { Stream } from '@core/uncertainty'

export const TRUTH: Record<Shape, number[]> = {
  linear: [2], threshold: [1.5, 2], progressive: [1.4, 3], cubic: [1.2, 2.2, 2.4], stop: [1.5, 3, 5],
  thresholdStop: [1.3, 1.6, 2.4, 6],
}

export const SPAN = { rangeN: 12, rangeMm: 6, roundN: 1e-4 }

/** The spring's force after walking through these forces with dry friction, from rest: the play operator. */
export function walk(forces: readonly number[], frictionN: number): number[] {
  let elastic = 0
  return forces.map((force) => (elastic = Math.min(Math.max(elastic, force - frictionN), force + frictionN)))
}

export interface World {
  readonly shape: Shape
  readonly frictionN?: number
  readonly ramps?: number
  readonly seed?: number
}

export type Simulated = FitData & { forceN: number[]; dropMm: number[] }

/** Ramps of 0 to 12 N up and back down to 1.2 N in steps of 1.2 N. */
export function simulate({ shape, frictionN = 0.3, ramps = 3, seed = 1 }: World): Simulated {
  const curve = shapeCurve(shape, SPAN)
  const stream = new Stream(seed, 0)
  const out = new Float64Array(8)
  const forceN: number[] = []
  const dropMm: number[] = []
  const branchSign: number[] = []
  const turnForceN: number[] = []
  for (let ramp = 0; ramp < ramps; ramp++) {
    const up = Array.from({ length: 11 }, (_, i) => 1.2 * i)
    const forces = [...up, ...up.slice(1, -1).reverse()]
    walk(forces, frictionN).forEach((elastic, i) => {
      curve.drop(elastic, TRUTH[shape], out)
      forceN.push(forces[i]! + 0.005 * stream.normal())
      dropMm.push(out[0]! + 0.05 * stream.normal())
      branchSign.push(i <= 10 ? 1 : -1)
      turnForceN.push(i <= 10 ? NaN : 12)
    })
  }
  const n = forceN.length
  return {
    forceN, dropMm, branchSign, turnForceN,
    uForceN: new Array<number>(n).fill(0.005), uDropMm: new Array<number>(n).fill(0.05),
    touched: new Array<boolean>(n).fill(false),
    factors: [
      { id: 'gain', onForceN: forceN.map((f) => 0.002 * f), onDropMm: null },
      { id: 'zero', onForceN: null, onDropMm: new Array<number>(n).fill(0.03) },
    ],
    friction: { kind: 'fit' },
  }
}

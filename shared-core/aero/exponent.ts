/**
 * Does the load go with V squared? The exponent n of F = c V^n from the logarithms. Above 2: the
 * tray pulls more as it comes down, or seals better; below 2: it stalls, leaks, or something touches.
 */
import {
  CLEAR_FOR_LOGARITHM, combine, intervalStatement, standardUncertainty, untold, type Uncertain,
} from '@core/uncertainty'
import { lineThrough } from './forceOverPressure'
import type { ExponentCheck } from './types'

/** Speeds closer together than this ratio tell no exponent. */
const LEAST_RATIO = 1.15

export interface SpeedPoint { readonly forceN: Uncertain; readonly speedMs: Uncertain }

const none = (code: 'oneSpeed' | 'nearZero'): ExponentCheck =>
  ({ exponent: untold('missing', { code }), verdict: 'untold' })

/**
 * Exponent of the speed over plain runs. Errors of the speed enter with the slope 2.
 *
 * @param chance of a verdict against V squared where it holds; the exponent itself is stated at 95 %
 */
export function exponentOf(points: readonly SpeedPoint[], chance: number): ExponentCheck {
  const speeds = points.map(({ speedMs }) => speedMs.value)
  if (points.length < 2 || Math.max(...speeds) / Math.min(...speeds) < LEAST_RATIO) {
    return none('oneSpeed')
  }
  const unclear = points.some(({ forceN }) =>
    Math.abs(forceN.value) <= CLEAR_FOR_LOGARITHM * standardUncertainty(forceN))
  if (unclear || new Set(points.map(({ forceN }) => Math.sign(forceN.value))).size > 1) {
    return none('nearZero')
  }
  const logs = points.map(({ forceN, speedMs }) => combine(Math.log(Math.abs(forceN.value)), [
    [forceN, 1 / forceN.value], [speedMs, -2 / speedMs.value],
  ]))
  const line = lineThrough(speeds.map(Math.log), logs)
  if (!line) return none('oneSpeed')
  const exponent = intervalStatement(line.slope)
  const { low, high } = intervalStatement(line.slope, { probability: 1 - chance }).interval
  return { exponent, verdict: low > 2 ? 'above' : high < 2 ? 'below' : 'agrees' }
}

/** The mass of a load from its weighings. */
import type { Chassis, Load, Weighing } from '@core/schema'
import { combine, fromData, fromSource, known, plus, scaled, sum, type Uncertain } from '@core/uncertainty'
import { scaleGain } from './scale'

/** What keeps a load from having a mass, in the order it is looked for. */
export type MassTrouble = 'unknownLoad' | 'notWeighed' | 'unknownScale'
export type MassResult = { readonly massKg: Uncertain } | { readonly trouble: MassTrouble }

/**
 * Mass of a load, kg: the mean of its weighings times the scale's gain. Sources: the gain
 * (`scale:<id>:gain`, shared), rounding (`load:<id>`, rectangular) and scatter of the mean
 * (`load:<id>:repeats`, pooled over everything weighed more than once on that scale).
 */
export function loadMass(chassis: Chassis, loadId: string): MassResult {
  const load = chassis.loads.find(({ id }) => id === loadId)
  if (!load) return { trouble: 'unknownLoad' }
  const weighings = load.weighings.filter(({ setAside }) => setAside === null)
  if (weighings.length === 0) return { trouble: 'notWeighed' }
  const byScale = grouped(weighings, ({ scaleId }) => scaleId)
  const means: Uncertain[] = []
  for (const [scaleId, own] of byScale) {
    const mean = meanOnScale(chassis, load, scaleId, own)
    if (!mean) return { trouble: 'unknownScale' }
    means.push(scaled(mean, own.length / weighings.length))
  }
  return { massKg: sum(means) }
}

function meanOnScale(chassis: Chassis, load: Load, scaleId: string, weighings: readonly Weighing[]): Uncertain | null {
  const scale = chassis.scales.find(({ id }) => id === scaleId)
  if (!scale) return null
  const n = weighings.length
  const shown = weighings.reduce((total, { massKg }) => total + massKg, 0) / n
  const { deviation, dof } = weighingScatter(chassis, scaleId)
  const id = byOneScaleOnly(load) ? `load:${load.id}` : `load:${load.id}:${scaleId}`
  const scattered = n > 1 && deviation >= scale.resolutionKg / 2
  const rounding = scale.resolutionKg / Math.sqrt(12)
  const parts = plus(
    fromSource(shown, scattered ? rounding / Math.sqrt(n) : rounding, known('weighing', id, 'rectangular')),
    fromSource(0, deviation / Math.sqrt(n), fromData('weighingRepeats', `${id}:repeats`, dof, `scale:${scaleId}:repeats`)),
  )
  const { gain } = scaleGain(scale)
  return combine(shown * gain.value, [[parts, gain.value], [gain, shown]])
}

const byOneScaleOnly = ({ weighings }: Load): boolean => new Set(weighings.map(({ scaleId }) => scaleId)).size === 1

/**
 * Standard deviation of one weighing on a scale, kg, beyond its rounding: pooled over all loads
 * weighed on it more than once; 0 where none was.
 */
export function weighingScatter(chassis: Chassis, scaleId: string): { deviation: number; dof: number } {
  const scale = chassis.scales.find(({ id }) => id === scaleId)
  let square = 0
  let dof = 0
  for (const { weighings } of chassis.loads) {
    const shown = weighings.filter((each) => each.scaleId === scaleId && each.setAside === null)
      .map((each) => each.massKg)
    const mean = shown.reduce((total, each) => total + each, 0) / shown.length
    square += shown.reduce((total, each) => total + (each - mean) ** 2, 0)
    dof += Math.max(0, shown.length - 1)
  }
  if (!scale || dof === 0) return { deviation: 0, dof: 1 }
  return { deviation: Math.sqrt(Math.max(0, square / dof - scale.resolutionKg ** 2 / 12)), dof }
}

/** Values under their keys, in order of first appearance. */
function grouped<T>(values: readonly T[], keyOf: (value: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const value of values) {
    const held = groups.get(keyOf(value))
    if (held) held.push(value)
    else groups.set(keyOf(value), [value])
  }
  return groups
}

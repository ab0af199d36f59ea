/**
 * How well a corner repeats: given in the profile, or learned (type A) from the same load met again,
 * in later ramps or by reading again in one step.
 */
import { cellOf, CORNERS, type Gauge, type Reading, type SquatSession, type SquatStep } from '@core/schema'
import type { Repeatability } from './types'

/** Fewer degrees of freedom than this tell too little of a variance to rely on. */
const LEAST_DOF = 3

/** Readings by their cell, those set aside left out. */
export function readingsByCell(readings: readonly Reading[]): Map<string, Reading[]> {
  const places = new Map<string, Reading[]>()
  for (const each of readings) {
    if (each.setAside !== null) continue
    const key = cellOf(each.stepId, each.corner)
    const held = places.get(key)
    if (held) held.push(each)
    else places.set(key, [each])
  }
  return places
}

/** Repeatability of a session's corners; `none` where nothing tells it. */
export function repeatabilityOf(session: SquatSession, gauge: Gauge): Repeatability {
  if (gauge.repeatabilityUMm !== null) return { uMm: gauge.repeatabilityUMm, dof: Infinity, from: 'given' }
  const places = readingsByCell(session.readings)
  const steps = pooled(stepGroups(session, places))
  const pool = `repeatability:${session.id}`
  if (steps.dof >= LEAST_DOF) return { ...learned(steps, gauge, 'steps'), pool }
  const readings = pooled([...places.values()].map((each) => each.map(({ shownMm }) => shownMm)))
  if (readings.dof >= LEAST_DOF) return { ...learned(readings, gauge, 'readings'), pool }
  return { uMm: 0, dof: Infinity, from: 'none' }
}

/** Scatter beyond rounding; where it is all rounding, rounding is what is left. */
function learned({ square, dof }: Pool, { resolutionMm }: Gauge, from: 'steps' | 'readings'): Repeatability {
  return { uMm: Math.sqrt(Math.max(0, square / dof - resolutionMm ** 2 / 12)), dof, from }
}

interface Pool { readonly square: number; readonly dof: number }

/** Pooled squares about each group's own mean. */
function pooled(groups: readonly (readonly number[])[]): Pool {
  let square = 0
  let dof = 0
  for (const values of groups) {
    const mean = values.reduce((sum, each) => sum + each, 0) / values.length
    square += values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
    dof += Math.max(0, values.length - 1)
  }
  return { square, dof }
}

/** Means of the steps that should read alike: same loads at the same places, reached from the same side. */
function stepGroups(session: SquatSession, places: Map<string, Reading[]>): number[][] {
  const groups = new Map<string, number[]>()
  for (const step of session.steps) {
    if (step.setAside !== null || step.placed.length === 0 || step.touched.front || step.touched.rear) continue
    for (const corner of CORNERS) {
      const readings = places.get(cellOf(step.id, corner))
      if (!readings) continue
      const mean = readings.reduce((sum, { shownMm }) => sum + shownMm, 0) / readings.length
      const key = `${corner}|${signature(step, session.setup.settle !== 'none')}`
      const held = groups.get(key)
      if (held) held.push(mean)
      else groups.set(key, [mean])
    }
  }
  return [...groups.values()]
}

/** What a step must have in common with another to be its repeat. */
export function signature(step: SquatStep, settled: boolean): string {
  const loads = step.placed.map(({ loadId, xMm, yMm }) => `${loadId}@${xMm},${yMm}`).sort().join('+')
  if (settled) return loads
  // With friction in play the first ramp starts from rest, later ones from where friction held the car.
  const start = step.branch === 'loading' ? (step.ramp === 1 ? 'rest' : 'held') : ''
  return `${step.branch}|${start}|${loads}`
}

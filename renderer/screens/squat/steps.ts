/** Making and reading the steps of a squat test. */
import { loadMass } from '@core/chassis'
import { SCHEMA_VERSION, cellOf, type Chassis, type Corner, type PlacedLoad, type Reading, type SquatSession, type SquatStep } from '@core/schema'
import { standardUncertainty } from '@core/uncertainty'
import { isDraft, original } from 'immer'
import { correctReading } from '../../stores/correctReading'
import { newId, now } from '../../stores/ids'

/** A new squat session that begins with its zero step. */
export function newSquat(chassis: Chassis, name: string): SquatSession {
  return {
    schemaVersion: SCHEMA_VERSION, id: newId('squat'), chassisId: chassis.id, revision: 0, name, note: '', createdAt: now(), kind: 'squat',
    setup: { gaugeId: chassis.gauges[0]!.id, settle: 'none', order: 'upDown', assumedFrictionN: null, wished: null },
    steps: [zeroStep(1)], readings: [], pictures: [],
  }
}

export const zeroStep = (ramp: number): SquatStep => ({
  id: newId('step'), branch: 'zero', ramp, placed: [], touched: { front: false, rear: false }, note: '', setAside: null,
})

interface Places {
  readonly count: number
  readonly counting: Map<string, Reading>
  readonly aside: Map<string, Reading>
}

/** Readings by step and corner, made once for each list of readings; a list that grew is gone through again. */
const places = new WeakMap<readonly Reading[], Places>()

function placesOf(readings: readonly Reading[]): Places {
  const known = places.get(readings)
  if (known?.count === readings.length) return known
  const byPlace = (some: readonly Reading[]) => new Map(some.map((each) => [cellOf(each.stepId, each.corner), each]))
  const made: Places = {
    count: readings.length,
    counting: byPlace(readings.filter((each) => each.setAside === null)),
    aside: byPlace(readings.filter((each) => each.setAside !== null)),
  }
  places.set(readings, made)
  return made
}

/** The reading that counts for a corner of a step, the latest not set aside, in a session that is no draft. */
export const readingOf = (session: SquatSession, stepId: string, corner: Corner): Reading | undefined =>
  placesOf(session.readings).counting.get(cellOf(stepId, corner))

/** The latest reading put aside at a corner of a step where none counts, in a session that is no draft. */
export function asideAt(session: SquatSession, stepId: string, corner: Corner): Reading | undefined {
  const { counting, aside } = placesOf(session.readings)
  const place = cellOf(stepId, corner)
  return counting.has(place) ? undefined : aside.get(place)
}

/** Where the reading that counts stands in the list. Of a draft its original is searched: to look at a draft costs. */
function placeOf({ readings }: SquatSession, stepId: string, corner: Corner): number {
  const list = (isDraft(readings) && original(readings)) || readings
  return list.findLastIndex((each) => each.stepId === stepId && each.corner === corner && each.setAside === null)
}

/**
 * Types a height at a corner of a step: a first reading, or a correction that keeps the old value. In a draft it comes
 * before any other change of the readings.
 */
export function typeReading(session: SquatSession, stepId: string, corner: Corner, shownMm: number, why: string): void {
  const held = session.readings[placeOf(session, stepId, corner)]
  if (!held) {
    session.readings.push({
      id: newId('reading'), stepId, corner, at: now(), shownMm, from: { kind: 'gauge' }, corrections: [], setAside: null,
    })
    return
  }
  if (held.shownMm === shownMm) return
  correctReading(session.readings, held, shownMm, why)
}

/** Takes out what was typed at a corner of a step, in a draft: the reading that counts. */
export function emptyReading(session: SquatSession, stepId: string, corner: Corner): void {
  const index = placeOf(session, stepId, corner)
  if (index >= 0) session.readings.splice(index, 1)
}

/** The next step after the last one: more load while going up, less while coming down, then the zero. */
export function nextStep(session: SquatSession, placed: SquatStep['placed'], branch: 'loading' | 'unloading'): SquatStep {
  const ramp = session.steps.at(-1)?.ramp ?? 1
  return { id: newId('step'), branch, ramp, placed, touched: { front: false, rear: false }, note: '', setAside: null }
}

/** A place on the car seen from above, mm: behind the front axle line, and to the right. */
export interface Spot { readonly xMm: number; readonly yMm: number }

/** All loads lie on one spot. */
export const lieTogether = (placed: readonly PlacedLoad[]): boolean =>
  placed.every((each) => each.xMm === placed[0]?.xMm && each.yMm === placed[0]?.yMm)

/** The load that was laid on last, whatever was taken off since; undefined where none was yet. */
export const lastPlaced = ({ steps }: SquatSession): PlacedLoad | undefined =>
  steps.findLast(({ placed }) => placed.length > 0)?.placed[0]

/** The other steps whose loads all lay where those of this step lie together. */
export function placedAlike(session: SquatSession, step: SquatStep): SquatStep[] {
  const [first] = step.placed
  if (!first || !lieTogether(step.placed)) return []
  return session.steps.filter(({ id, placed }) =>
    id !== step.id && placed.length > 0 && lieTogether([first, ...placed]))
}

/**
 * Puts right where loads of a step lie, in a draft; where they were said to lie before is kept.
 *
 * @param loadId one of them; null for all
 */
export function movePlaced(step: SquatStep, loadId: string | null, spot: Partial<Spot>, why: string): void {
  for (const each of step.placed) {
    if (loadId !== null && each.loadId !== loadId) continue
    const was = { xMm: each.xMm, yMm: each.yMm }
    const to = { ...was, ...spot }
    if (to.xMm === was.xMm && to.yMm === was.yMm) continue
    each.corrections = [...(each.corrections ?? []), { was, at: now(), why }]
    Object.assign(each, to)
  }
}

interface MassOnScale { readonly kg: number; readonly u: number | null }
const masses = new WeakMap<Chassis, Map<string, MassOnScale>>()

/**
 * Mass of a load with the scale's check taken into account, kg, and its standard uncertainty; the mean of what the
 * scale showed, with no uncertainty, where no mass can be told.
 */
export function massOfLoad(chassis: Chassis, loadId: string): MassOnScale {
  const known = masses.get(chassis) ?? new Map<string, MassOnScale>()
  masses.set(chassis, known)
  const held = known.get(loadId)
  if (held) return held
  const result = loadMass(chassis, loadId)
  const made = 'massKg' in result
    ? { kg: result.massKg.value, u: standardUncertainty(result.massKg) }
    : { kg: shownOnScale(chassis, loadId), u: null }
  known.set(loadId, made)
  return made
}

function shownOnScale(chassis: Chassis, loadId: string): number {
  const shown = chassis.loads.find(({ id }) => id === loadId)?.weighings.filter((each) => !each.setAside) ?? []
  return shown.length === 0 ? 0 : shown.reduce((total, each) => total + each.massKg, 0) / shown.length
}

/** Mass of some loads together, kg. */
export const massOfLoads = (chassis: Chassis, loadIds: readonly string[]): number =>
  loadIds.reduce((total, id) => total + massOfLoad(chassis, id).kg, 0)

/** Some steps of a session one after the other, and the place of the first. */
export interface StepPart { readonly first: number; readonly steps: readonly SquatStep[] }

/** A session of so many steps is shown whole. */
const SHORT_STEPS = 100
/** Most steps of one part. */
const PART_STEPS = 50

/** The steps in parts that can be folded away: each ramp for itself, long ramps cut; a short session is one part. */
export function partsOf(steps: readonly SquatStep[]): StepPart[] {
  if (steps.length <= SHORT_STEPS) return [{ first: 0, steps }]
  const firsts = steps.reduce<number[]>((found, step, index) => {
    const begun = found.at(-1)
    const next = begun === undefined || step.ramp !== steps[begun]?.ramp || index - begun >= PART_STEPS
    return next ? [...found, index] : found
  }, [])
  return firsts.map((first, index) => ({ first, steps: steps.slice(first, firsts[index + 1]) }))
}

/** Smallest step of the scales that a car's loads were weighed on, kg; 1 g where no scale is listed. */
export const massStepKg = ({ scales }: Chassis): number =>
  scales.length === 0 ? USUAL_STEP_KG : Math.min(...scales.map(({ resolutionKg }) => resolutionKg))
const USUAL_STEP_KG = 0.001

/** Step of a gauge of the car, mm; a caliper's where it is listed no more. */
export const gaugeStepMm = ({ gauges }: Chassis, gaugeId: string): number =>
  gauges.find(({ id }) => id === gaugeId)?.resolutionMm ?? CALIPER_STEP_MM
const CALIPER_STEP_MM = 0.01

/** How many different places loads lie at. */
export const placeCount = (placed: readonly PlacedLoad[]): number =>
  new Set(placed.map(({ xMm, yMm }) => `${xMm} ${yMm}`)).size

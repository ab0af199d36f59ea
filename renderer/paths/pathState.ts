/** How far each step of the path is, what it still misses, and the one next thing to do. */
import { CORNERS, type SquatSession } from '@core/schema'
import { computed } from 'vue'
import { useProject } from '../stores/project'
import type { StepName } from './steps'

export type StepState = 'done' | 'begun' | 'open' | 'optional'

/** Something a step still misses: a key under `shell.missing` and the figure its sentence needs. */
export interface Missing { readonly key: string; readonly count: number }

/** Fewest loaded steps from which a curve can be drawn. */
const ENOUGH_STEPS = 3
/** Fewest loads with which a squat test makes sense. */
const ENOUGH_LOADS = 2

/** What a squat test still misses before its curves can be trusted. */
export function missingInSquat(squat: SquatSession): Missing[] {
  const read = new Set(squat.readings.filter((each) => !each.setAside).map((each) => `${each.stepId} ${each.corner}`))
  const steps = squat.steps.filter((step) => !step.setAside)
  const unread = steps.reduce((sum, step) => sum + CORNERS.filter((corner) => !read.has(`${step.id} ${corner}`)).length, 0)
  const loaded = steps.filter((step) => step.placed.length > 0)
  const missing: Missing[] = []
  if (unread > 0) missing.push({ key: 'corners', count: unread })
  if (loaded.length < ENOUGH_STEPS) missing.push({ key: 'loadedSteps', count: ENOUGH_STEPS - loaded.length })
  else if (squat.setup.order === 'upDown' && !loaded.some((step) => step.branch === 'unloading')) missing.push({ key: 'wayDown', count: 1 })
  else if (steps.at(-1)?.branch !== 'zero') missing.push({ key: 'zeroReturn', count: 1 })
  return missing
}

export function usePathState() {
  const project = useProject()

  const weighed = computed(() =>
    project.chassis?.loads.filter((load) => load.weighings.some((each) => !each.setAside)).length ?? 0)
  const loaded = computed(() => {
    const readSteps = new Set(project.squats.flatMap((squat) => squat.readings.map((reading) => reading.stepId)))
    return project.squats.flatMap((squat) => squat.steps)
      .filter((step) => step.placed.length > 0 && readSteps.has(step.id)).length
  })
  const runs = computed(() => project.airflows.flatMap((session) => session.runs))
  const readRuns = computed(() => runs.value.filter((run) => run.readings.length > 0))

  const states = computed<Record<StepName, StepState>>(() => {
    const chassis = project.chassis
    const configurations = new Set(readRuns.value.filter((run) => !run.control).map((run) => run.configurationId)).size
    const laps = project.tracks.flatMap((session) => session.runs).length
    const ready = loaded.value >= ENOUGH_STEPS
    const pictures = project.sessions.some((each) => each.kind !== 'track' && each.pictures.length > 0)
    return {
      chassis: chassis && chassis.gauges.length > 0 && chassis.scales.length > 0 ? 'done' : 'begun',
      loads: weighed.value >= ENOUGH_LOADS ? 'done' : weighed.value > 0 ? 'begun' : 'open',
      squat: ready ? 'done' : loaded.value > 0 || project.squats.length > 0 ? 'begun' : 'open',
      curve: ready ? 'done' : 'open',
      airflow: readRuns.value.length > 0 ? 'done' : runs.value.length > 0 ? 'begun' : 'open',
      camera: pictures ? 'done' : 'optional',
      load: ready && readRuns.value.length > 0 ? 'done' : 'open',
      decide: ready && configurations > 1 ? 'done' : 'open',
      track: laps > 0 ? 'done' : 'optional',
      report: ready && readRuns.value.length > 0 ? 'done' : 'open',
    }
  })

  /** What the step in hand still misses, most pressing first. */
  const missing = computed<Partial<Record<StepName, readonly Missing[]>>>(() => {
    const chassis = project.chassis
    const own: Missing[] = []
    if (chassis && chassis.gauges.length === 0) own.push({ key: 'gauge', count: 1 })
    if (chassis && chassis.scales.length === 0) own.push({ key: 'scale', count: 1 })
    if (chassis && (!chassis.trayTouchMm.front || !chassis.trayTouchMm.rear)) own.push({ key: 'trayTouch', count: 1 })
    const squat = project.squats.at(-1)
    return {
      chassis: own,
      loads: weighed.value < ENOUGH_LOADS ? [{ key: 'loads', count: ENOUGH_LOADS - weighed.value }] : [],
      squat: squat ? missingInSquat(squat) : [{ key: 'loadedSteps', count: ENOUGH_STEPS }],
      curve: loaded.value < ENOUGH_STEPS ? [{ key: 'loadedSteps', count: ENOUGH_STEPS - loaded.value }] : [],
      airflow: readRuns.value.length === 0 ? [{ key: 'runs', count: 1 }] : [],
    }
  })

  const next = computed<StepName>(() => {
    const order: StepName[] = ['chassis', 'loads', 'squat', 'airflow', 'decide', 'track']
    return order.find((name) => states.value[name] !== 'done') ?? 'report'
  })

  return { states, missing, next }
}

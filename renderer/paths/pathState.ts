/** How far each step of the path is, and the one next thing to do. */
import { computed } from 'vue'
import { useProject } from '../stores/project'
import type { StepName } from './steps'

export type StepState = 'done' | 'begun' | 'open' | 'optional'

/** Fewest loaded steps from which a curve can be drawn. */
const ENOUGH_STEPS = 3

export function usePathState() {
  const project = useProject()

  const states = computed<Record<StepName, StepState>>(() => {
    const chassis = project.chassis
    const weighed = chassis?.loads.filter((load) => load.weighings.some((each) => !each.setAside)).length ?? 0
    const readSteps = new Set(project.squats.flatMap((squat) => squat.readings.map((reading) => reading.stepId)))
    const loaded = project.squats.flatMap((squat) => squat.steps)
      .filter((step) => step.placed.length > 0 && readSteps.has(step.id)).length
    const runs = project.airflows.flatMap((session) => session.runs)
    const readRuns = runs.filter((run) => run.readings.length > 0)
    const configurations = new Set(readRuns.map((run) => run.configurationId)).size
    const laps = project.tracks.flatMap((session) => session.runs).length
    const ready = loaded >= ENOUGH_STEPS
    return {
      chassis: chassis && chassis.gauges.length > 0 ? 'done' : 'begun',
      loads: weighed >= 2 ? 'done' : weighed > 0 ? 'begun' : 'open',
      squat: ready ? 'done' : loaded > 0 ? 'begun' : 'open',
      curve: ready ? 'done' : 'open',
      airflow: readRuns.length > 0 ? 'done' : runs.length > 0 ? 'begun' : 'open',
      camera: project.sessions.some((each) => each.kind !== 'track' && each.pictures.length > 0) ? 'done' : 'optional',
      load: ready && readRuns.length > 0 ? 'done' : 'open',
      decide: ready && configurations > 1 ? 'done' : 'open',
      track: laps > 0 ? 'done' : 'optional',
      report: ready && readRuns.length > 0 ? 'done' : 'open',
    }
  })

  const next = computed<StepName | null>(() => {
    const order: StepName[] = ['chassis', 'loads', 'squat', 'airflow', 'decide', 'track']
    return order.find((name) => states.value[name] !== 'done') ?? 'report'
  })

  return { states, next }
}

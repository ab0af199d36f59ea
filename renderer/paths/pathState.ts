/** How far each step of the path is, what it still misses, and the one next thing to do. */
import { computed } from 'vue'
import { useAnalysis } from '../stores/analysis'
import { useProject } from '../stores/project'
import { curvesOf, missingInChassis, missingInLoads, missingInSquat, NO_SQUAT, weighedLoads, type Missing } from './missing'
import type { StepName } from './steps'

export type StepState = 'done' | 'begun' | 'open' | 'optional'

export function usePathState() {
  const project = useProject()
  const analysis = useAnalysis()

  const curves = computed(() => curvesOf(analysis.result, {
    working: analysis.working, wholeSquat: project.squats.some((squat) => missingInSquat(squat).length === 0),
  }))
  const runs = computed(() => project.airflows.flatMap((session) => session.runs))
  const readRuns = computed(() => runs.value.filter((run) => run.readings.length > 0))

  /** What each step still misses, most pressing first. */
  const missing = computed<Partial<Record<StepName, readonly Missing[]>>>(() => {
    const car = project.chassis
    if (!car) return {}
    const squat = project.squats.at(-1)
    const inSquat = squat ? missingInSquat(squat) : NO_SQUAT
    return {
      chassis: missingInChassis(car),
      loads: missingInLoads(car),
      squat: curves.value.usable ? [] : inSquat.length > 0 ? inSquat : curves.value.missing,
      curve: curves.value.missing,
      airflow: readRuns.value.length === 0 ? [{ key: 'runs', count: 1 }] : [],
    }
  })

  const states = computed<Record<StepName, StepState>>(() => {
    const car = project.chassis
    const configurations = new Set(readRuns.value.filter((run) => !run.control).map((run) => run.configurationId)).size
    const laps = project.tracks.flatMap((session) => session.runs).length
    const { usable } = curves.value
    const pictures = project.sessions.some((each) => 'pictures' in each && each.pictures.length > 0)
    return {
      chassis: car && missing.value.chassis?.length === 0 ? 'done' : 'begun',
      loads: missing.value.loads?.length === 0 ? 'done' : car && weighedLoads(car) > 0 ? 'begun' : 'open',
      squat: usable ? 'done' : project.squats.length > 0 ? 'begun' : 'open',
      curve: usable ? 'done' : curves.value.missing.length === 1 ? 'begun' : 'open',
      airflow: readRuns.value.length > 0 ? 'done' : runs.value.length > 0 ? 'begun' : 'open',
      camera: pictures ? 'done' : 'optional',
      load: usable && readRuns.value.length > 0 ? 'done' : 'open',
      decide: usable && configurations > 1 ? 'done' : 'open',
      track: laps > 0 ? 'done' : 'optional',
      drag: analysis.result?.costs.coasts.some(({ untold }) => untold === null) ? 'done' : 'optional',
      report: usable && readRuns.value.length > 0 ? 'done' : 'open',
    }
  })

  const next = computed<StepName>(() => {
    const order: StepName[] = ['chassis', 'loads', 'squat', 'airflow', 'decide', 'track']
    return order.find((name) => states.value[name] !== 'done') ?? 'report'
  })

  return { states, missing, next }
}

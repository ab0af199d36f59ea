/** How far each step of the path is, what it still misses, and the one next thing to do. */
import { computed } from 'vue'
import { useAnalysis } from '../stores/analysis'
import { useProject } from '../stores/project'
import { curvesOf, missingInChassis, missingInLoads, missingInSquat, NO_SQUAT, type Missing } from './missing'
import { readRuns, statesOf } from './states'
import type { StepName } from './stepNames'

export function usePathState() {
  const project = useProject()
  const analysis = useAnalysis()

  const curves = computed(() => curvesOf(analysis.result, {
    working: analysis.working, wholeSquat: project.squats.some((squat) => missingInSquat(squat).length === 0),
  }))

  /** What each step still misses, most pressing first. */
  const missing = computed<Partial<Record<StepName, readonly Missing[]>>>(() => {
    const car = project.chassis
    if (!car) return {}
    const squat = project.squats.at(-1)
    const inSquat = squat ? missingInSquat(squat) : NO_SQUAT
    const { runs, setUps } = readRuns({ result: analysis.result, sessions: project.sessions })
    return {
      chassis: missingInChassis(car),
      loads: missingInLoads(car),
      squat: curves.value.usable ? [] : inSquat.length > 0 ? inSquat : curves.value.missing,
      curve: curves.value.missing,
      airflow: runs === 0 ? [{ key: 'runs', count: 1 }] : [],
      decide: setUps < 2 ? [{ key: 'setUps', count: 2 - setUps }] : [],
    }
  })

  const states = computed(() => statesOf({
    car: project.chassis, sessions: project.sessions, result: analysis.result, curves: curves.value,
    missing: missing.value,
  }))

  const next = computed<StepName>(() => {
    const order: StepName[] = ['chassis', 'loads', 'squat', 'airflow', 'decide', 'track']
    return order.find((name) => states.value[name] !== 'done') ?? 'report'
  })

  return { states, missing, next }
}

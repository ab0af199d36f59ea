/** Laps of the builder's courses, worked out while a screen shows them. */
import { onMounted, onUnmounted } from 'vue'
import { useAnalysis } from './analysis'

/** Call in the setup of whatever shows laps; other screens spare the worker thousands of draws. */
export function useCourses(): void {
  const analysis = useAnalysis()
  onMounted(() => analysis.showCourses(1))
  onUnmounted(() => analysis.showCourses(-1))
}

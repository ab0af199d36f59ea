/** The results of the open car, worked out again in a worker after each change. */
import { DEFAULT_OPTIONS, type Analysis, type AnalysisOptions } from '@core/analysis'
import { defineStore } from 'pinia'
import { computed, ref, shallowRef, watch } from 'vue'
import type { Exchange } from '@core/schema'
import type { Draft } from '../parts/draft'
import type { AnalysisDeeds, ReportWish } from '../workers/analysis.worker'
import { asker, newestOnly } from '../workers/ask'
import { useProject } from './project'

export const useAnalysis = defineStore('analysis', () => {
  const project = useProject()
  const result = shallowRef<Analysis | null>(null)
  const working = ref(false)
  const failed = ref('')
  const options = shallowRef<AnalysisOptions>({ ...DEFAULT_OPTIONS, speedsMs: [], courses: false })
  const worker = asker<AnalysisDeeds>(
    () => new Worker(new URL('../workers/analysis.worker.ts', import.meta.url), { type: 'module' }),
  )

  /** The car with a reading that is still being typed; null while none is. */
  const tried = shallowRef<Exchange | null>(null)
  const typing = ref(false)
  /** What stands is the answer before: a newer one is on its way. */
  const stale = computed(() => working.value || typing.value)

  /** Whether the newest question was for laps, too. */
  let askedCourses = false
  let shownCourses = 0

  const ask = newestOnly(async (newest) => {
    const exchange = tried.value ?? project.exchange
    working.value = exchange !== null
    if (!exchange) { result.value = null; return }
    askedCourses = options.value.courses
    try {
      const analysis = await worker.ask('analyse', { exchange, options: { ...options.value } })
      if (!newest()) return
      result.value = analysis
      failed.value = ''
    } catch (error) {
      failed.value = String(error instanceof Error ? error.message : error)
    }
    working.value = false
  })

  /** Asks for other heights or for corner curves; unchanged parts stay. */
  function want(part: Partial<AnalysisOptions>): void {
    options.value = { ...options.value, ...part }
    void ask()
  }

  /**
   * Works out what the car would be with a reading that is still being typed; nothing is kept and nothing can be
   * taken back of it. `typing` greys what stands until the keys pause.
   */
  function tryOut(state: Draft['state'], change?: (exchange: Exchange) => Exchange): void {
    typing.value = state === 'typing'
    if (state === 'typing') return
    const { exchange } = project
    const next = state === 'read' && exchange && change ? change(exchange) : null
    if (next === tried.value) return
    tried.value = next
    void ask()
  }

  /** Something that shows laps came (1) or went (-1): they are worked out while there is any. */
  function showCourses(more: 1 | -1): void {
    shownCourses += more
    options.value = { ...options.value, courses: shownCourses > 0 }
    if (options.value.courses && !askedCourses) void ask()
  }

  /** The report on the last results as an HTML document; null where it failed or is no longer wanted. */
  async function report(wish: ReportWish, signal: AbortSignal): Promise<string | null> {
    try {
      const html = await worker.ask('report', wish, { signal })
      if (signal.aborted) return null
      failed.value = ''
      return html
    } catch (error) {
      if (!signal.aborted) failed.value = String(error instanceof Error ? error.message : error)
      return null
    }
  }

  watch(() => project.chassis?.id, () => { result.value = null; failed.value = ''; tried.value = null; typing.value = false })
  watch(() => project.exchange, ask, { immediate: true })

  return { result, working, stale, failed, options, want, tryOut, showCourses, report }
})

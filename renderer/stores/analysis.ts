/** The results of the open car, worked out again in a worker after each change. */
import { DEFAULT_OPTIONS, type Analysis, type AnalysisOptions } from '@core/analysis'
import { defineStore } from 'pinia'
import { ref, shallowRef, watch } from 'vue'
import type { AnalysisDeeds, ReportWish } from '../workers/analysis.worker'
import { asker, newestOnly } from '../workers/ask'
import { useProject } from './project'

export const useAnalysis = defineStore('analysis', () => {
  const project = useProject()
  const result = shallowRef<Analysis | null>(null)
  const working = ref(false)
  const failed = ref('')
  const options = shallowRef<AnalysisOptions>({ ...DEFAULT_OPTIONS, speedsMs: [] })
  const worker = asker<AnalysisDeeds>(
    () => new Worker(new URL('../workers/analysis.worker.ts', import.meta.url), { type: 'module' }),
  )

  const ask = newestOnly(async (newest) => {
    const exchange = project.exchange
    working.value = exchange !== null
    if (!exchange) { result.value = null; return }
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

  watch(() => project.chassis?.id, () => { result.value = null; failed.value = '' })
  watch(() => project.exchange, ask, { immediate: true })

  return { result, working, failed, options, want, report }
})

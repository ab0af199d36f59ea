/**
 * The results of the open car, worked out again in a worker after each change. Typing never waits for them: what takes
 * long is begun, and taken over, only while the hands rest.
 */
import { DEFAULT_OPTIONS, type Analysis, type AnalysisOptions } from '@core/analysis'
import { defineStore } from 'pinia'
import { computed, ref, shallowRef, watch } from 'vue'
import type { Exchange } from '@core/schema'
import type { Draft } from '../parts/draft'
import type { AnalysisDeeds, ReportWish } from '../workers/analysis.worker'
import { asker, newestOnly } from '../workers/ask'
import { restOfHands } from './hands'
import { useProject } from './project'
import { sameContent } from './project/documents'

/** Work of so many ms is felt by nobody: it is begun at once. */
const QUICK_MS = 150
/** Longest rest that is waited for, ms. */
const REST_MS = 700
/** Work that has run for so long is broken off by a newer wish; before that a worker is not worth its start, ms. */
const LONG_MS = 10_000

export const useAnalysis = defineStore('analysis', () => {
  const project = useProject()
  const result = shallowRef<Analysis | null>(null)
  const working = ref(false)
  const failed = ref('')
  const options = shallowRef<AnalysisOptions>({ ...DEFAULT_OPTIONS, speedsMs: [], courses: false })
  const worker = asker<AnalysisDeeds>(
    () => new Worker(new URL('../workers/analysis.worker.ts', import.meta.url), { type: 'module' }),
  )
  /** What the last work took, ms. */
  let tookMs = 0
  /** When the work under way began; null where there is none. */
  let begunAt: number | null = null
  const rest = (): Promise<void> | void => (tookMs < QUICK_MS ? undefined : restOfHands(Math.min(tookMs / 2, REST_MS)))

  /** The car with a reading that is still being typed; null while none is. */
  const tried = shallowRef<Exchange | null>(null)
  const typing = ref(false)
  /** What stands is the answer before: a newer one is on its way. */
  const stale = computed(() => working.value || typing.value)

  /** Whether the newest question was for laps, too. */
  let askedCourses = false
  let shownCourses = 0

  const ask = newestOnly(async (newest) => {
    working.value = project.exchange !== null
    await rest()
    const exchange = tried.value ?? project.exchange
    if (!exchange) { result.value = null; working.value = false; return }
    if (!newest()) return
    askedCourses = options.value.courses
    try {
      begunAt = performance.now()
      await worker.ask('analyse', { exchange, options: { ...options.value } })
      tookMs = performance.now() - begunAt
      begunAt = null
      await rest()
      if (!newest()) return
      result.value = await worker.ask('result', null)
      failed.value = ''
    } catch (error) {
      if (begunAt !== null) tookMs = performance.now() - begunAt
      begunAt = null
      if (!newest()) return
      failed.value = String(error instanceof Error ? error.message : error)
    }
    working.value = false
  })

  /** Works everything out anew, as soon as typing allows. */
  function renew(): void {
    if (begunAt !== null && performance.now() - begunAt > LONG_MS) worker.end()
    void ask()
  }

  /** Asks for other heights or for corner curves; unchanged parts stay. */
  function want(part: Partial<AnalysisOptions>): void {
    options.value = { ...options.value, ...part }
    renew()
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
    renew()
  }

  /** Something that shows laps came (1) or went (-1): they are worked out while there is any. */
  function showCourses(more: 1 | -1): void {
    shownCourses += more
    options.value = { ...options.value, courses: shownCourses > 0 }
    if (options.value.courses && !askedCourses) renew()
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

  const changed = (now: Exchange | null, before: Exchange | null | undefined): boolean =>
    !now || !before || !sameContent(now.chassis, before.chassis) || now.sessions.length !== before.sessions.length
    || now.sessions.some((each, index) => !sameContent(each, before.sessions[index]))

  watch(() => project.chassis?.id, () => {
    result.value = null
    failed.value = ''
    tried.value = null
    typing.value = false
    tookMs = 0
  })
  watch(() => project.exchange, (now, before) => { if (changed(now, before)) renew() }, { immediate: true })

  return { result, working, stale, failed, options, want, tryOut, showCourses, report }
})

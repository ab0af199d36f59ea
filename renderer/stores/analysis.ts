/** The results of the open car, worked out again in a worker after each change. */
import { DEFAULT_OPTIONS, type Analysis, type AnalysisOptions } from '@core/analysis'
import { defineStore } from 'pinia'
import { ref, shallowRef, watch } from 'vue'
import type { Question, Reply, ReportWish } from '../workers/analysis.worker'
import { useProject } from './project'

export const useAnalysis = defineStore('analysis', () => {
  const project = useProject()
  const result = shallowRef<Analysis | null>(null)
  const working = ref(false)
  const failed = ref('')
  const options = shallowRef<AnalysisOptions>(DEFAULT_OPTIONS)
  let worker: Worker | null = null
  let ticket = 0
  let busy = false
  let again = false
  let reportTicket = 0
  let reported: ((html: string) => void) | null = null

  function answer(event: MessageEvent<Reply>): void {
    const reply = event.data
    if (reply.kind === 'report') {
      if (reply.ticket !== reportTicket) return
      failed.value = reply.ok ? '' : reply.why
      if (reply.ok) reported?.(reply.html)
      return
    }
    busy = false
    if (again) { again = false; ask(); return }
    if (reply.ticket !== ticket) return
    working.value = false
    failed.value = reply.ok ? '' : reply.why
    if (reply.ok && reply.kind === 'analysis') result.value = reply.analysis
  }

  function ask(): void {
    const exchange = project.exchange
    if (!exchange) { result.value = null; return }
    working.value = true
    if (busy) { again = true; return }
    if (!worker) {
      worker = new Worker(new URL('../workers/analysis.worker.ts', import.meta.url), { type: 'module' })
      worker.onmessage = answer
      worker.onerror = (event) => { busy = false; working.value = false; failed.value = event.message }
    }
    busy = true
    ticket += 1
    const question: Question = { kind: 'analysis', ticket, exchange, options: { ...options.value } }
    worker.postMessage(question)
  }

  /** Asks for other speeds or for corner curves; unchanged parts stay. */
  function want(part: Partial<AnalysisOptions>): void {
    options.value = { ...options.value, ...part }
    ask()
  }

  /** The report on the last results as an HTML document, for the newest wish only. */
  function report(wish: ReportWish, done: (html: string) => void): void {
    reportTicket += 1
    reported = done
    worker?.postMessage({ kind: 'report', ticket: reportTicket, wish } satisfies Question)
  }

  watch(() => project.chassis?.id, () => { result.value = null; failed.value = '' })
  watch(() => project.exchange, ask, { immediate: true })

  return { result, working, failed, options, want, report }
})

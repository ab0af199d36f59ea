/** The window's side of a log under way: asks the worker, keeps what it tells, ends it to stop it. */
import type { LogLayout, LogMapping, ReduceOptions } from '@core/track'
import { onBeforeUnmount, ref, shallowRef, type Ref, type ShallowRef } from 'vue'
import type { LogAsk, LogRead, LogReduced, LogTell, LogTrouble } from '../../workers/log.worker'

export type LogPhase = 'none' | 'opening' | 'mapping' | 'reading' | 'read'

export interface LogUnderWay {
  readonly phase: Ref<LogPhase>
  readonly file: ShallowRef<File | null>
  readonly layout: ShallowRef<LogLayout | null>
  readonly mapping: ShallowRef<LogMapping | null>
  readonly preview: ShallowRef<readonly (readonly string[])[]>
  readonly progress: ShallowRef<{ readonly share: number; readonly rows: number }>
  readonly found: ShallowRef<LogRead | null>
  readonly reduced: ShallowRef<LogReduced | null>
  readonly trouble: ShallowRef<{ readonly why: LogTrouble; readonly said: string } | null>
  open(chosen: File): void
  cut(layout: LogLayout): void
  read(): void
  reduce(options: ReduceOptions, buckets: number): void
  cancel(): void
  close(): void
}

type Ask = LogAsk extends infer Each ? (Each extends LogAsk ? Omit<Each, 'ticket'> : never) : never

export function useLog(): LogUnderWay {
  const phase = ref<LogPhase>('none')
  const file = shallowRef<File | null>(null)
  const layout = shallowRef<LogLayout | null>(null)
  const mapping = shallowRef<LogMapping | null>(null)
  const preview = shallowRef<readonly (readonly string[])[]>([])
  const progress = shallowRef({ share: 0, rows: 0 })
  const found = shallowRef<LogRead | null>(null)
  const reduced = shallowRef<LogReduced | null>(null)
  const trouble = shallowRef<LogUnderWay['trouble']['value']>(null)
  let worker: Worker | null = null
  let ticket = 0
  /** One reduction at a time: the newest wish waits. */
  let waiting: Ask | null = null
  let busy = false

  function hear(told: LogTell): void {
    if (told.ticket !== ticket) return
    if (told.kind !== 'progress') busy = false
    switch (told.kind) {
      case 'opened':
        layout.value = told.layout
        mapping.value = told.mapping ?? { time: { rateHz: 100 }, axes: { x: null, y: null, z: null }, accelerationUnit: 'standardGravity', speed: null }
        preview.value = told.rows
        phase.value = 'mapping'
        break
      case 'preview': preview.value = told.rows; break
      case 'progress': progress.value = told; break
      case 'read': found.value = told.read; phase.value = 'read'; break
      case 'reduced': reduced.value = told.reduced; break
      case 'failed':
        trouble.value = told
        if (phase.value === 'reading') phase.value = 'mapping'
        if (phase.value === 'opening') phase.value = 'none'
        break
    }
    if (!waiting) return
    const next = waiting
    waiting = null
    ask(next)
  }

  function ask(question: Ask): void {
    if (!worker) {
      worker = new Worker(new URL('../../workers/log.worker.ts', import.meta.url), { type: 'module' })
      worker.onmessage = (event: MessageEvent<LogTell>) => hear(event.data)
      worker.onerror = (event) => hear({ ticket, kind: 'failed', why: 'unreadable', said: event.message })
    }
    ticket += 1
    busy = true
    trouble.value = null
    worker.postMessage({ ...question, ticket })
  }

  function stop(): void {
    worker?.terminate()
    worker = null
    busy = false
    waiting = null
  }

  function open(chosen: File): void {
    stop()
    file.value = chosen
    found.value = null
    reduced.value = null
    phase.value = 'opening'
    ask({ kind: 'open', file: chosen })
  }
  function cut(changed: LogLayout): void {
    layout.value = changed
    ask({ kind: 'preview', layout: changed })
  }
  function read(): void {
    if (!layout.value || !mapping.value) return
    found.value = null
    reduced.value = null
    progress.value = { share: 0, rows: 0 }
    phase.value = 'reading'
    ask({ kind: 'read', layout: { ...layout.value }, mapping: mapping.value })
  }
  function reduce(options: ReduceOptions, buckets: number): void {
    const question: Ask = { kind: 'reduce', options, buckets }
    if (busy) waiting = question
    else ask(question)
  }
  /** Ends the reading; the file and its columns stay chosen. */
  function cancel(): void {
    const again = file.value
    const kept = { layout: layout.value, mapping: mapping.value }
    stop()
    if (!again) return
    open(again)
    layout.value = kept.layout
    mapping.value = kept.mapping
  }
  function close(): void {
    stop()
    file.value = null
    phase.value = 'none'
    found.value = null
    reduced.value = null
    trouble.value = null
  }
  onBeforeUnmount(stop)

  return {
    phase, file, layout, mapping, preview, progress, found, reduced, trouble, open, cut, read, reduce, cancel, close,
  }
}

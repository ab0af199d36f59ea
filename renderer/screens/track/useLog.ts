/** The window's side of a log under way: asks the worker, keeps what it tells, ends it to stop it. */
import type { LogGuess, LogLayout, LogMapping, ReduceOptions } from '@core/track'
import { onBeforeUnmount, ref, shallowRef, type Ref, type ShallowRef } from 'vue'
import { asker, newestOnly } from '../../workers/ask'
import type { LogDeeds, LogOpened, LogProgress, LogRead, LogReduced, LogTold, LogTrouble } from '../../workers/log.worker'

export type LogPhase = 'none' | 'opening' | 'mapping' | 'reading' | 'read'

export interface LogUnderWay {
  readonly phase: Ref<LogPhase>
  readonly file: ShallowRef<File | null>
  readonly layout: ShallowRef<LogLayout | null>
  readonly mapping: ShallowRef<LogMapping | null>
  /** What of the mapping is still a guess: what the builder has set is none any more. */
  readonly guesses: ShallowRef<readonly LogGuess[]>
  /** How the text is coded, and the logs of a zip. */
  readonly from: ShallowRef<Pick<LogOpened, 'encoding' | 'entries' | 'entry'> | null>
  readonly preview: ShallowRef<readonly (readonly string[])[]>
  readonly progress: ShallowRef<LogProgress>
  readonly found: ShallowRef<LogRead | null>
  readonly reduced: ShallowRef<LogReduced | null>
  readonly trouble: ShallowRef<{ readonly why: LogTrouble; readonly said: string } | null>
  open(chosen: File, entry?: string): void
  cut(layout: LogLayout): void
  read(): void
  reduce(options: ReduceOptions, buckets: number): void
  cancel(): void
  close(): void
}

export function useLog(): LogUnderWay {
  const phase = ref<LogPhase>('none')
  const file = shallowRef<File | null>(null)
  const layout = shallowRef<LogLayout | null>(null)
  const mapping = shallowRef<LogMapping | null>(null)
  const guesses = shallowRef<readonly LogGuess[]>([])
  const from = shallowRef<LogUnderWay['from']['value']>(null)
  const preview = shallowRef<readonly (readonly string[])[]>([])
  const progress = shallowRef<LogProgress>({ share: 0, rows: 0 })
  const found = shallowRef<LogRead | null>(null)
  const reduced = shallowRef<LogReduced | null>(null)
  const trouble = shallowRef<LogUnderWay['trouble']['value']>(null)
  const worker = asker<LogDeeds>(
    () => new Worker(new URL('../../workers/log.worker.ts', import.meta.url), { type: 'module' }),
  )
  let reading = new AbortController()

  /** The answer; null where there is none: the trouble is told then, unless the question was taken back. */
  async function answered<T>(asked: Promise<LogTold<T>>): Promise<T | null> {
    trouble.value = null
    try {
      const told = await asked
      if (told.ok) return told.value
      trouble.value = told
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return null
      trouble.value = { why: 'unreadable', said: error instanceof Error ? error.message : String(error) }
    }
    if (phase.value === 'reading') phase.value = 'mapping'
    if (phase.value === 'opening') phase.value = 'none'
    return null
  }

  async function open(chosen: File, entry?: string): Promise<void> {
    worker.end()
    file.value = chosen
    found.value = null
    reduced.value = null
    phase.value = 'opening'
    const opened = await answered(worker.ask('open', { file: chosen, entry: entry ?? null }))
    if (!opened) return
    layout.value = opened.layout
    mapping.value = opened.mapping
    guesses.value = opened.guesses
    from.value = opened
    preview.value = opened.rows
    phase.value = 'mapping'
  }
  async function cut(changed: LogLayout): Promise<void> {
    layout.value = changed
    preview.value = (await answered(worker.ask('preview', changed))) ?? preview.value
  }
  async function read(): Promise<void> {
    if (!layout.value || !mapping.value) return
    found.value = null
    reduced.value = null
    progress.value = { share: 0, rows: 0 }
    phase.value = 'reading'
    reading = new AbortController()
    const columns = { layout: { ...layout.value }, mapping: mapping.value }
    const onProgress = (how: LogProgress): void => { progress.value = how }
    found.value = await answered(worker.ask('read', columns, { onProgress, signal: reading.signal }))
    if (found.value) phase.value = 'read'
  }
  let wish: Parameters<LogUnderWay['reduce']> | null = null
  const reduceNewest = newestOnly(async () => {
    const [options, buckets] = wish!
    reduced.value = (await answered(worker.ask('reduce', { options, buckets }))) ?? reduced.value
  })
  function reduce(...wished: Parameters<LogUnderWay['reduce']>): void {
    wish = wished
    void reduceNewest()
  }
  /** Ends the reading; the file and its columns stay chosen. */
  function cancel(): void {
    reading.abort()
    phase.value = 'mapping'
  }
  function close(): void {
    worker.end()
    file.value = null
    phase.value = 'none'
    found.value = null
    reduced.value = null
    trouble.value = null
  }
  onBeforeUnmount(worker.end)

  return {
    phase, file, layout, mapping, guesses, from, preview, progress, found, reduced, trouble, open, cut, read, reduce,
    cancel, close,
  }
}

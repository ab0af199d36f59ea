/** The longest task of a page's main thread, from the browser's trace. */
import type { Page } from 'playwright-core'

interface TraceEvent { name: string; pid: number; tid: number; dur?: number; tdur?: number; args?: { name?: string } }

export interface LongestTask {
  /** In processor time, ms: what other programs of the machine take does not count. */
  readonly processorMs: number
  /** By the clock, ms. */
  readonly clockMs: number
}

/** Begins to watch. The page stays as quick as it is. */
export async function watchTasks(page: Page): Promise<void> {
  await page.context().browser()?.startTracing(page, { categories: ['__metadata', 'disabled-by-default-devtools.timeline'] })
}

/** What was seen since; ends the watch. */
export async function longestTask(page: Page): Promise<LongestTask> {
  const trace = await page.context().browser()?.stopTracing()
  const { traceEvents } = JSON.parse(String(trace)) as { traceEvents: TraceEvent[] }
  const place = ({ pid, tid }: TraceEvent): string => `${pid} ${tid}`
  const mains = new Set(traceEvents
    .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain').map(place))
  const tasks = traceEvents.filter((each) => each.name === 'RunTask' && each.tdur !== undefined && mains.has(place(each)))
  if (tasks.length === 0) throw new Error('the trace holds no task of the page')
  const most = (of: (task: TraceEvent) => number | undefined): number =>
    Math.max(...tasks.map((each) => of(each) ?? 0)) / 1000
  return { processorMs: most(({ tdur }) => tdur), clockMs: most(({ dur }) => dur) }
}

/** How far a planned order was driven: which run took each place, which is next, and where it was strayed from. */
import type { TrackRun, TrackSession } from '@core/schema'
import { isGrip, type GripRun } from '../gripRuns'

export interface PlanStep {
  /** Set-up that the plan wants here. */
  readonly configurationId: string
  /** Run that took this place; null while none did. */
  readonly run: { readonly id: string; readonly name: string; readonly configurationId: string } | null
  /** `begun`: the run is there, but has no level yet. `strayed`: it was driven with another set-up. */
  readonly state: 'driven' | 'begun' | 'strayed' | 'next' | 'later'
}

export interface PlanProgress {
  readonly steps: readonly PlanStep[]
  /** Set-up to drive next; null where the whole order was driven. */
  readonly nextId: string | null
  readonly driven: number
}

const hasLevel = (run: GripRun): boolean => {
  switch (run.kind) {
    case 'log': return true
    case 'circle': return run.lapsS.some(({ setAside }) => !setAside)
    case 'typed': return run.levels.some(({ setAside }) => !setAside)
  }
}

/** Runs of grip that were made after the plan take its places in their order; those set aside take none. */
export function planProgress(
  { order, afterOrder = 0 }: NonNullable<TrackSession['plan']>, runs: readonly TrackRun[],
): PlanProgress {
  const own = runs.filter((run): run is GripRun => isGrip(run) && !run.setAside && run.order > afterOrder)
    .sort((a, b) => a.order - b.order)
  const steps = order.map((configurationId, place): PlanStep => {
    const run = own[place]
    if (!run) return { configurationId, run: null, state: place === own.length ? 'next' : 'later' }
    const state = run.configurationId !== configurationId ? 'strayed' : hasLevel(run) ? 'driven' : 'begun'
    return { configurationId, run: { id: run.id, name: run.name, configurationId: run.configurationId }, state }
  })
  return { steps, nextId: order[own.length] ?? null, driven: Math.min(own.length, order.length) }
}

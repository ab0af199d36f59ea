/** The one next thing to do in a squat test. */
import type { SquatResult } from '@core/analysis'
import { CORNERS, type Corner, type SquatSession, type SquatStep } from '@core/schema'
import { readingOf } from './steps'

export interface Advice {
  readonly key:
    | 'firstZero' | 'read' | 'settleTap' | 'settleBounce' | 'moreLoads' | 'wayDown' | 'zeroReturn' | 'usefulLoad'
    | 'goodEnough' | 'enough'
  /** Corners still to read, in their order. */
  readonly corners: readonly Corner[]
  /** Names of the loads to place. */
  readonly loads: readonly string[]
}

/** Fewest loaded steps from which a curve can be drawn. */
const ENOUGH_STEPS = 3

/**
 * What to do now: read what is unread, then load up, come down, return to zero, and then whatever
 * shortens the interval most.
 *
 * @param current the step in hand
 * @param result what the readings come to so far, where that is known
 */
export function adviceFor(
  session: SquatSession, current: SquatStep | undefined, result: SquatResult | undefined,
): Advice {
  const plain = (key: Advice['key'], corners: readonly Corner[] = [], loads: readonly string[] = []): Advice =>
    ({ key, corners, loads })
  const unread = current && !current.setAside ? CORNERS.filter((corner) => !readingOf(session, current.id, corner)) : []
  if (unread.length === CORNERS.length && session.setup.settle !== 'none' && current?.branch !== 'zero') {
    return plain(session.setup.settle === 'tap' ? 'settleTap' : 'settleBounce', unread)
  }
  if (unread.length > 0) return plain(session.steps.length === 1 ? 'firstZero' : 'read', unread)
  const steps = session.steps.filter((step) => !step.setAside)
  const loaded = steps.filter((step) => step.placed.length > 0)
  if (loaded.length < ENOUGH_STEPS) return plain('moreLoads')
  const last = steps.at(-1)
  if (session.setup.order === 'upDown' && !loaded.some((step) => step.branch === 'unloading')) return plain('wayDown')
  if (last && last.branch !== 'zero') return plain('zeroReturn')
  const verdicts = result ? Object.values(result.verdict).filter((each) => each !== null) : []
  if (verdicts.length > 0 && verdicts.every((each) => each.goodEnough)) return plain('goodEnough')
  if (result?.nextLoad) return plain('usefulLoad', [], result.nextLoad.names)
  return plain('enough')
}

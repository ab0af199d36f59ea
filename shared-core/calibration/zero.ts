/**
 * The zero of each corner. After a settle routine every zero step counts: they are averaged, or,
 * where they clearly wander, followed from one to the next. Without one, friction holds the car off
 * its zero after the first load, so only the zero before it counts.
 */
import { cellOf, CORNERS, type Corner, type Reading, type SquatSession } from '@core/schema'
import { CALLS_FOR_ACTION, chiSquareUpper, combine, mean, partsOf, variance, type Uncertain } from '@core/uncertainty'
import { collapsed, shownAtStep, type GaugeContext } from './shown'

export interface CornerZero {
  /** Zero at a step, by its place in the session; as the gauge shows it. */
  readonly at: (stepIndex: number) => Uncertain
  /** Last zero less first, mm as shown, and its standard uncertainty; null with one zero. */
  readonly wander: { readonly valueMm: number; readonly uMm: number } | null
  /** The zeros clearly wander and are followed. */
  readonly followed: boolean
  readonly count: number
}

/** Places in the session of the steps that measure the zero. */
export function zeroSteps(session: SquatSession): number[] {
  const firstLoaded = session.steps.findIndex(({ placed }) => placed.length > 0)
  const settled = session.setup.settle !== 'none'
  return session.steps.flatMap(({ branch, placed, setAside }, i) => {
    const counts = branch === 'zero' && placed.length === 0 && setAside === null
    return counts && (settled || firstLoaded < 0 || i < firstLoaded) ? [i] : []
  })
}

/** Zeros of the corners that have one. */
export function cornerZeros(
  session: SquatSession, places: Map<string, Reading[]>, context: GaugeContext,
): Partial<Record<Corner, CornerZero>> {
  const steps = zeroSteps(session)
  const zeros: Partial<Record<Corner, CornerZero>> = {}
  for (const corner of CORNERS) {
    const found = steps.flatMap((index) => {
      const shown = shownAtStep(places.get(cellOf(session.steps[index]!.id, corner)) ?? [], context)
      return shown ? [{ index, shown }] : []
    })
    if (found.length > 0) zeros[corner] = zeroOf(found, `zero:${session.id}:${corner}`)
  }
  return zeros
}

interface Found { readonly index: number; readonly shown: Uncertain }

function zeroOf(found: readonly Found[], name: string): CornerZero {
  const first = found[0]!
  const last = found[found.length - 1]!
  const ownVariance = (each: Found) =>
    variance(partsOf(each.shown, ({ lifetime, role }) => lifetime === 'reading' && role !== 'settling'))
  const wander = found.length < 2 ? null : {
    valueMm: last.shown.value - first.shown.value, uMm: Math.sqrt(ownVariance(first) + ownVariance(last)),
  }
  const average = mean(found.map(({ shown }) => shown))
  const chiSquare = found.reduce((sum, each) => sum + (each.shown.value - average.value) ** 2 / ownVariance(each), 0)
  const followed = found.length > 1 && chiSquareUpper(chiSquare, found.length - 1) < CALLS_FOR_ACTION
  if (!followed) {
    const all = collapsed(average, name)
    return { at: () => all, wander, followed, count: found.length }
  }
  const named = found.map(({ index, shown }, i) => ({ index, shown: collapsed(shown, `${name}:${i + 1}`) }))
  return { at: (stepIndex) => between(named, stepIndex), wander, followed, count: found.length }
}

/** Straight between the neighbouring zeros; level before the first and after the last. */
function between(found: readonly Found[], stepIndex: number): Uncertain {
  const next = found.findIndex(({ index }) => index >= stepIndex)
  if (next === 0) return found[0]!.shown
  if (next < 0) return found[found.length - 1]!.shown
  const before = found[next - 1]!
  const after = found[next]!
  const share = (stepIndex - before.index) / (after.index - before.index)
  return combine(before.shown.value * (1 - share) + after.shown.value * share, [
    [before.shown, 1 - share], [after.shown, share],
  ])
}

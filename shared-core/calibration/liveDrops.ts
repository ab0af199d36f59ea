/** What one step's readings come to while they are typed: the drops that the curve will be made from. */
import type { CornerDrops } from '@core/chassis'
import { CORNERS, cellOf, type Chassis, type Corner, type SquatSession } from '@core/schema'
import { readingsByCell, repeatabilityOf } from './repeatability'
import { dropBetween, shownAt, type GaugeContext } from './shown'
import { cornerZeros } from './zero'

/**
 * Drops of the corners at one step, mm, + is down, by the same zeros as the curve's points; a corner that
 * was not read, or has no zero, is left out. Empty where the gauge or the step is unknown.
 *
 * @param doubted ids of readings that can't be: they make neither a zero nor, elsewhere, a drop
 */
export function liveDrops(
  session: SquatSession, chassis: Chassis, stepId: string, doubted: ReadonlySet<string> = new Set(),
): CornerDrops {
  const gauge = chassis.gauges.find(({ id }) => id === session.setup.gaugeId)
  const stepIndex = session.steps.findIndex(({ id }) => id === stepId)
  if (!gauge || stepIndex < 0) return {}
  const readings = session.readings.filter(({ id }) => !doubted.has(id))
  const context: GaugeContext = {
    sessionId: session.id, gauge, repeatability: repeatabilityOf({ ...session, readings }, gauge),
  }
  const zeros = cornerZeros(session, readingsByCell(readings), context)
  const own = readingsByCell(session.readings.filter((each) => each.stepId === stepId))
  const drops: { -readonly [C in Corner]?: CornerDrops[C] } = {}
  for (const corner of CORNERS) {
    const shown = shownAt(own.get(cellOf(stepId, corner)) ?? [], context)
    const drop = shown && dropBetween(gauge, zeros[corner]?.at(stepIndex) ?? null, shown)
    if (drop) drops[corner] = drop
  }
  return drops
}

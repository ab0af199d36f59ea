/** What a gauge or a picture showed at one corner, as an uncertain value with every shared error named. */
import { axleOf } from '@core/chassis'
import type { Corner, Gauge, Reading } from '@core/schema'
import { exact, fromData, known, mean, merged, plus, type Part, type Source, type Uncertain } from '@core/uncertainty'
import { atRest, type Settling } from './settling'
import type { Repeatability } from './types'

/** What the readings of a session have in common. */
export interface GaugeContext {
  readonly sessionId: string
  readonly gauge: Gauge
  readonly repeatability: Repeatability
  /** How the car comes to rest at each step, where that is to be told beside the readings' own errors. */
  readonly settling?: Settling | null
}

/** What a corner showed at a step of the squat test, with how the car came to rest there. */
export function shownAtStep(readings: readonly Reading[], context: GaugeContext): Uncertain | null {
  const shown = shownAt(readings, context)
  const [first] = readings
  if (!shown || !first || !context.settling) return shown
  return atRest(shown, axleOf(first.corner), context.settling, `${context.sessionId}:${first.stepId}`)
}

/**
 * Mean of the readings of one corner at one step, mm as shown; null without any that counts.
 * Sources: `gauge:<id>:scale` and `gauge:<id>:zero:<session>` (shared), a picture's shared parts by
 * their own names, and `reading:<step>:<corner>:...` for what is this mean's alone.
 */
export function shownAt(readings: readonly Reading[], context: GaugeContext): Uncertain | null {
  const kept = readings.filter(({ setAside }) => setAside === null)
  if (kept.length === 0) return null
  const { stepId, corner } = kept[0]!
  const shared = mean(kept.map((each) => sharedParts(each, context)))
  return plus(shared, { value: 0, parts: ownParts(kept, stepId, corner, context) })
}

function sharedParts(reading: Reading, { gauge, sessionId }: GaugeContext): Uncertain {
  const { shownMm, from } = reading
  if (from.kind === 'picture') {
    return {
      value: shownMm,
      parts: (from.shared ?? []).map(({ source, contributionMm }) =>
        ({ source: known('sharedPicture', source), contribution: contributionMm })),
    }
  }
  const parts: Part[] = []
  if (gauge.scaleU > 0) {
    parts.push({ source: known('gaugeScale', `gauge:${gauge.id}:scale`), contribution: shownMm * gauge.scaleU })
  }
  if (gauge.zeroUMm > 0) {
    parts.push({ source: known('gaugeZero', `gauge:${gauge.id}:zero:${sessionId}`), contribution: gauge.zeroUMm })
  }
  return { value: shownMm, parts }
}

function ownParts(
  readings: readonly Reading[], stepId: string, corner: Corner, { gauge, repeatability, sessionId }: GaugeContext,
): Part[] {
  const n = readings.length
  const name = `reading:${stepId}:${corner}`
  const pictures = readings.flatMap(({ from }) => (from.kind === 'picture' ? [from.uMm] : []))
  const gauged = (n - pictures.length) / n
  const parts: Part[] = []
  const add = (source: Source, contribution: number) => {
    if (contribution > 0) parts.push({ source, contribution })
  }
  const { uMm, dof, from, pool = `repeatability:${sessionId}` } = repeatability
  const averages = from === 'given' || from === 'readings'
  const repeats = from === 'given'
    ? known('readingRepeats', `${name}:repeat`) : fromData('readingRepeats', `${name}:repeat`, dof, pool)
  add(repeats, averages ? uMm * Math.sqrt(gauged / n) : uMm)
  add(known('readingRounding', `${name}:rounding`, 'rectangular'), gauged * roundingU(gauge.resolutionMm, uMm, n))
  add(known('readingPicture', `${name}:picture`), Math.hypot(...pictures) / n)
  return parts
}

/**
 * Standard uncertainty by rounding of a mean of n readings: readings that scatter by half a step or
 * more are rounded independently, others alike.
 */
export const roundingU = (resolutionMm: number, repeatUMm: number, n: number): number =>
  resolutionMm / Math.sqrt(repeatUMm >= resolutionMm / 2 ? 12 * n : 12)

/** Drops one corner moved, mm, + is down, between two indications of the gauge. */
export function dropBetween(gauge: Gauge, zero: Uncertain | null, shown: Uncertain): Uncertain | null {
  const sign = gauge.reads === 'height' ? -1 : 1
  if (!zero) return gauge.reads === 'drop' ? shown : null
  return cleaned(difference(shown, zero, sign))
}

function difference(shown: Uncertain, zero: Uncertain, sign: number): Uncertain {
  const parts = new Map<string, Part>()
  const add = (of: Uncertain, factor: number) => of.parts.forEach(({ source, contribution }) => {
    const held = parts.get(source.id)?.contribution ?? 0
    parts.set(source.id, { source, contribution: held + factor * contribution })
  })
  add(shown, sign)
  add(zero, -sign)
  return { value: sign * (shown.value - zero.value), parts: [...parts.values()] }
}

/** Without the parts that cancelled. */
function cleaned(of: Uncertain): Uncertain {
  return { value: of.value, parts: of.parts.filter(({ contribution }) => Math.abs(contribution) > 1e-12) }
}

/**
 * The readings' own parts drawn together into one source per group: for the readings of a zero, which from
 * here on only ever appear together.
 */
export function collapsed(of: Uncertain, id: string): Uncertain {
  const kept: Part[] = []
  const together = new Map<string, { source: Source; square: number }>()
  for (const part of of.parts) {
    const { source, contribution } = part
    // What all corners of a step share has to keep its name.
    if (source.lifetime !== 'reading' || source.role === 'settling') {
      kept.push(part)
      continue
    }
    const held = together.get(source.group)
    if (held) held.square += contribution ** 2
    else together.set(source.group, { source, square: contribution ** 2 })
  }
  for (const [group, { source, square }] of together) {
    kept.push({ source: merged(source, 'zero', `${id}:${group}`), contribution: Math.sqrt(square) })
  }
  return kept.length === 0 ? exact(of.value) : { value: of.value, parts: kept }
}

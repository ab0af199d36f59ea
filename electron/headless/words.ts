/** What may be said of a measurand, as text and as JSON. Only an interval gives a plain number. */
import { ENGLISH, remarkIn, sayIn, whyIn } from '@core/report/words'
import type { Remark } from '@core/remark'
import { intervalStatement, type Statement, type Uncertain } from '@core/uncertainty'
import {
  DEFAULT_UNITS, formatAsRead, formatBound, formatEnds, formatQuantity, formatShort, roundByUncertainty, unitFor,
  type Unit,
} from '@core/units'

/** A value and its standard uncertainty in one unit; both end with the second digit of the uncertainty. */
export function withU(value: number, u: number): string {
  const { valueText, uText } = roundByUncertainty(value, u)
  return `${valueText} (u ${Number.isFinite(u) ? uText : 'unknown'})`
}

/** One line: "12.35 N [11.9, 12.8]", "at least 6.1 N (the tray was on the ground)" and so on. */
export function statementText(said: Statement, unit: Unit): string {
  switch (said.kind) {
    case 'interval': {
      const { low, high } = formatEnds(said.interval.low, said.interval.high, unit, { u: said.u })
      const mark = said.extrapolated ? ` (${sayIn(ENGLISH)('answerOutside')})` : ''
      return `${formatQuantity(said.value, unit, { u: said.u }).text} [${low}, ${high}]${mark}`
    }
    case 'atLeast': return `at least ${formatBound(said.bound, unit, 'atLeast')} (${whyIn(ENGLISH, said)})`
    case 'atMost': return `at most ${formatBound(said.bound, unit, 'atMost')} (${whyIn(ENGLISH, said)})`
    case 'between': {
      const [low, high] = [formatBound(said.low, unit, 'atLeast'), formatBound(said.high, unit, 'atMost')]
      return `between ${low} and ${high} (${whyIn(ENGLISH, said)})`
    }
    case 'untold': return `can't be told (${whyIn(ENGLISH, said)})`
  }
}

/**
 * The same as JSON; `suffix` is the unit that ends each key of a value, such as `N` or `M2`. `brief` leaves the
 * budget out, for lists that are long.
 */
export function statementJson(said: Statement, suffix: string, { brief = false } = {}): Record<string, unknown> {
  const finite = (value: number): number | string => (Number.isFinite(value) ? value : String(value))
  switch (said.kind) {
    case 'interval': return {
      kind: said.kind, [`value${suffix}`]: said.value, [`u${suffix}`]: said.u, dof: finite(said.dof), method: said.method,
      [`low${suffix}`]: said.interval.low, [`high${suffix}`]: said.interval.high, probability: said.interval.probability,
      extrapolated: said.extrapolated,
      ...(!brief && { budget: said.budget.map((row) => ({ group: row.group, [`u${suffix}`]: row.u, share: row.share })) }),
    }
    case 'atLeast':
    case 'atMost': return { kind: said.kind, [`bound${suffix}`]: said.bound, probability: said.probability, reason: said.reason }
    case 'between': return {
      kind: said.kind, [`low${suffix}`]: said.low, [`high${suffix}`]: said.high, probability: said.probability, reason: said.reason,
    }
    case 'untold': return { kind: said.kind, reason: said.reason, code: said.because.code, because: whyIn(ENGLISH, said) }
  }
}

/** A number without a unit: "1.93 [1.71, 2.15]". */
export function plainStatement(said: Statement | Uncertain): string {
  if ('parts' in said) return plainStatement(intervalStatement(said))
  return statementText(said, 'plain')
}

/** A remark as a sentence, its figures in SI units. */
export const remarkText = (remark: Remark): string => remarkIn(ENGLISH, remark, {
  figure(value, quantity, u) {
    const unit = unitFor(quantity, DEFAULT_UNITS)
    return (u === null ? formatShort(value, unit, { step: true }) : formatQuantity(value, unit, { u, step: true })).text
  },
  shown: (value) => formatAsRead(value, unitFor('length', DEFAULT_UNITS)).text,
  nameOf: () => 'a step',
})

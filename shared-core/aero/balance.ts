/**
 * Balance: the front axle's share of the load and the centre of pressure. A ratio of two uncertain
 * loads has no symmetric interval, and none at all where their sum may be nothing: Fieller's interval.
 */
import { staticLoads, wheelbase } from '@core/chassis'
import type { Chassis } from '@core/schema'
import {
  budget, CLEAR_FOR_RATIO, combine, COVERAGE_PROBABILITY, effectiveDof, exact, intervalStatement, minus, monotone,
  over, plus, ratioIntervalOf, standardUncertainty, statementOf, times, untold, valueClaim, type Claim,
  type Statement, type Uncertain,
} from '@core/uncertainty'
import type { Balance } from './types'

/** The statement of a/b by Fieller; it can't be told where b may be zero. */
export function ratioStatement(a: Uncertain, b: Uncertain, extrapolated = false): Statement {
  const ends = ratioIntervalOf(a, b)
  if (ends.kind !== 'bounded') return untold('denominatorNearZero', { code: 'nearZero' })
  const ratio = over(a, b)
  return {
    kind: 'interval', value: ratio.value, u: standardUncertainty(ratio), dof: effectiveDof(ratio),
    interval: { low: ends.low, high: ends.high, probability: COVERAGE_PROBABILITY }, shortest: null, method: 'fieller',
    budget: budget(ratio), extrapolated,
  }
}

/** The front share as a value or bounds; with bounds both loads must press down. */
export function frontShareClaim(front: Claim, rear: Claim): Claim {
  if (front.kind === 'untold') return front
  if (rear.kind === 'untold') return rear
  const share = (f: Uncertain, r: Uncertain): Uncertain => over(f, plus(f, r))
  if (front.kind === 'value' && rear.kind === 'value') {
    const total = plus(front.value, rear.value)
    if (!clearOfZero(total)) return untold('denominatorNearZero', { code: 'nearZero' })
    return valueClaim(share(front.value, rear.value), front.extrapolated || rear.extrapolated)
  }
  const ends = [front, rear].flatMap((claim) => {
    if (claim.kind === 'value') return [claim.value]
    if (claim.kind === 'atLeast') return [claim.low]
    return claim.kind === 'between' ? [claim.low] : [exact(-1)]
  })
  if (ends.some(({ value }) => value < 0)) return untold('memberCensored', { code: 'mayLift' })
  const bounded = monotone(front, rear, 'falls', (f, r) => (f.value + r.value > 0 ? share(f, r) : exact(0)))
  return bounded.kind === 'untold' ? untold('memberCensored', { code: 'bothBounds' }) : bounded
}

const clearOfZero = (a: Uncertain): boolean => Math.abs(a.value) > CLEAR_FOR_RATIO * standardUncertainty(a)

/** What may be said of the front share: Fieller's interval from two values, else what bounds allow. */
export function frontShareStatement(front: Claim, rear: Claim): Statement {
  if (front.kind !== 'value' || rear.kind !== 'value') return statementOf(frontShareClaim(front, rear))
  return ratioStatement(front.value, plus(front.value, rear.value), front.extrapolated || rear.extrapolated)
}

/** Balance of a configuration from its axles' ClA. */
export function balanceOf(front: Claim, rear: Claim, chassis: Chassis): Balance {
  const atRest = staticLoads(chassis)?.frontShare ?? null
  const length = wheelbase(chassis)
  const staticFrontShare = atRest
    ? intervalStatement(atRest) : untold('missing', { code: 'noAxleWeights' })
  const share = frontShareClaim(front, rear)
  const frontShare = frontShareStatement(front, rear)
  const shift = !atRest ? untold('missing', { code: 'noAxleWeights' })
    : share.kind === 'untold' ? statementOf(share)
      : statementOf(monotone(share, valueClaim(atRest), 'falls', minus))
  if (front.kind !== 'value' || rear.kind !== 'value') {
    const centre = monotone(valueClaim(length), share, 'falls', (l, s) =>
      combine(l.value * (1 - s.value), [[l, 1 - s.value], [s, -l.value]]))
    return { frontShare, centreMm: statementOf(centre), staticFrontShare, shift }
  }
  const extrapolated = front.extrapolated || rear.extrapolated
  return {
    frontShare, staticFrontShare, shift,
    centreMm: ratioStatement(times(length, rear.value), plus(front.value, rear.value), extrapolated),
  }
}

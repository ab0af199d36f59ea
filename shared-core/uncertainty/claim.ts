/**
 * Arithmetic of what may be said. A claim is a value, or only one or two bounds of it, each with its
 * dependence on the sources, so that terms shared by two claims cancel in their difference even
 * where one of them is only a bound. `statementOf` turns a claim into words' raw material at the end.
 *
 * A bound here is the estimate of the bound; its own uncertainty is taken off (or added) one-sided
 * only when the statement is made.
 */
import { COVERAGE_PROBABILITY, intervalStatement, lowerBound, upperBound } from './interval'
import { COVERAGE_FACTOR } from './significance'
import { untold, type CensorReason, type Nothing, type Statement } from './statement'
import { minus, over, plus, scaled, standardUncertainty, times, type Uncertain } from './uncertain'

export type Claim =
  | { readonly kind: 'value'; readonly value: Uncertain; readonly extrapolated: boolean }
  | { readonly kind: 'atLeast'; readonly low: Uncertain; readonly reason: CensorReason }
  | { readonly kind: 'atMost'; readonly high: Uncertain; readonly reason: CensorReason }
  | { readonly kind: 'between'; readonly low: Uncertain; readonly high: Uncertain; readonly reason: CensorReason }
  | Nothing

/** A quantity as later formulas take it, and what may be said of it. */
export interface Told { readonly claim: Claim; readonly statement: Statement }

/** A plain value. `extrapolated`: outside the range in which readings support it. */
export const valueClaim = (value: Uncertain, extrapolated = false): Claim => ({ kind: 'value', value, extrapolated })

/**
 * The claim that the measurand lies between two ends, each of which may be missing. Without either
 * nothing can be told. An end that is not finite bounds nothing.
 */
export function boundedClaim(lower: Uncertain | null, upper: Uncertain | null, reason: CensorReason): Claim {
  const [low, high] = [finiteEnd(lower), finiteEnd(upper)]
  if (low && high) return { kind: 'between', low, high, reason }
  if (low) return { kind: 'atLeast', low, reason }
  if (high) return { kind: 'atMost', high, reason }
  return untold(reason, { code: 'noBound' })
}

const finiteEnd = (end: Uncertain | null): Uncertain | null =>
  (end && Number.isFinite(end.value) && Number.isFinite(standardUncertainty(end)) ? end : null)

/** The least the measurand can be, null where nothing is known below. */
export function lowEnd(claim: Claim): Uncertain | null {
  if (claim.kind === 'value') return claim.value
  return claim.kind === 'atLeast' || claim.kind === 'between' ? claim.low : null
}

/** The most the measurand can be, null where nothing is known above. */
export function highEnd(claim: Claim): Uncertain | null {
  if (claim.kind === 'value') return claim.value
  return claim.kind === 'atMost' || claim.kind === 'between' ? claim.high : null
}

/** True where the claim is only a bound, or nothing. */
export const isCensored = (claim: Claim): boolean => claim.kind !== 'value'

const reasonOf = (claims: readonly Claim[]): CensorReason => {
  const reasons = new Set(claims.flatMap((claim) => (claim.kind === 'value' ? [] : [claim.reason])))
  return reasons.size === 1 ? [...reasons][0]! : 'memberCensored'
}

/**
 * A function of two claims that rises with the first and, as told, rises or falls with the second,
 * over all values that the two claims leave open.
 */
export function monotone(
  a: Claim, b: Claim, second: 'rises' | 'falls', of: (a: Uncertain, b: Uncertain) => Uncertain,
): Claim {
  if (a.kind === 'untold') return a
  if (b.kind === 'untold') return b
  if (a.kind === 'value' && b.kind === 'value') return valueClaim(of(a.value, b.value), a.extrapolated || b.extrapolated)
  const [bLow, bHigh] = second === 'rises' ? [lowEnd(b), highEnd(b)] : [highEnd(b), lowEnd(b)]
  const aLow = lowEnd(a)
  const aHigh = highEnd(a)
  return boundedClaim(aLow && bLow ? of(aLow, bLow) : null, aHigh && bHigh ? of(aHigh, bHigh) : null, reasonOf([a, b]))
}

/** A function of one claim that only rises or only falls. */
export function mapClaim(claim: Claim, way: 'rises' | 'falls', of: (a: Uncertain) => Uncertain): Claim {
  if (claim.kind === 'untold') return claim
  if (claim.kind === 'value') return valueClaim(of(claim.value), claim.extrapolated)
  const low = lowEnd(claim)
  const high = highEnd(claim)
  const [from, to] = way === 'rises' ? [low, high] : [high, low]
  return boundedClaim(from && of(from), to && of(to), claim.reason)
}

export const addClaims = (a: Claim, b: Claim): Claim => monotone(a, b, 'rises', plus)
export const subtractClaims = (a: Claim, b: Claim): Claim => monotone(a, b, 'falls', minus)

/** Sum of one or more claims. */
export const sumClaims = (claims: readonly Claim[]): Claim => claims.reduce(addClaims)

/** The claim times an exactly known factor of either sign. */
export const scaleClaim = (claim: Claim, factor: number): Claim =>
  mapClaim(claim, factor >= 0 ? 'rises' : 'falls', (a) => scaled(a, factor))

/** The claim times a factor that is clearly above zero, such as a dynamic pressure. */
export const timesPositive = (claim: Claim, factor: Uncertain): Claim => mapClaim(claim, 'rises', (a) => times(a, factor))

/** The claim over a divisor that is clearly above zero. */
export function overPositive(claim: Claim, divisor: Uncertain): Claim {
  if (!(divisor.value > 0) || divisor.value <= COVERAGE_FACTOR * standardUncertainty(divisor)) {
    return untold('denominatorNearZero', { code: 'divisorNearZero' })
  }
  return mapClaim(claim, 'rises', (a) => over(a, divisor))
}

/** What may be said of a claim: an interval, or one-sided bounds at the coverage probability. */
export function statementOf(claim: Claim, probability = COVERAGE_PROBABILITY): Statement {
  switch (claim.kind) {
    case 'value': return intervalStatement(claim.value, { probability, extrapolated: claim.extrapolated })
    case 'atLeast': return { kind: 'atLeast', bound: lowerBound(claim.low, probability), probability, reason: claim.reason }
    case 'atMost': return { kind: 'atMost', bound: upperBound(claim.high, probability), probability, reason: claim.reason }
    case 'between': return {
      kind: 'between', low: lowerBound(claim.low, probability), high: upperBound(claim.high, probability), probability,
      reason: claim.reason,
    }
    case 'untold': return claim
  }
}

/** A claim with its statement. */
export const told = (claim: Claim): Told => ({ claim, statement: statementOf(claim) })

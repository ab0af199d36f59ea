/**
 * Do bench and track agree? The difference of the two gains against its expanded uncertainty, as in
 * the normalised error E_n of ISO 13528, 9.7: agreement where |E_n| <= 1. Where the bench tells
 * only a bound, the track can be on its right side or contradict it, nothing more.
 */
import { remark, type Remark } from '@core/remark'
import { AXLES } from '@core/schema'
import {
  halfWidth, lowerBound, minus, monotone, statementOf, subtractClaims, told, upperBound, type Claim, type Uncertain,
} from '@core/uncertainty'
import { neededLoad } from './expected'
import type { Agreement, AgreementVerdict, ExpectedGain, Manoeuvre, OrderDrift } from './types'

/** What else is known of the comparison, for the explanations. */
export interface Circumstances {
  readonly manoeuvre: Manoeuvre
  readonly drift: OrderDrift['verdict']
  readonly driftRemoved: boolean
  /** Surface after less before, K, where it moved; null else. */
  readonly warmerK: number | null
}

/** Difference over its 95 % expanded uncertainty; 0 over 0 agrees. */
export function normalisedError(difference: Uncertain): number {
  const half = halfWidth(difference)
  if (half > 0) return difference.value / half
  return difference.value === 0 ? 0 : Math.sign(difference.value) * Infinity
}

/** Compares a gain seen on the track with the one expected from the bench. */
export function agreement(
  track: Claim, expected: ExpectedGain, weightN: Uncertain, atSpeedMs: number, circumstances: Circumstances,
): Agreement {
  const difference = subtractClaims(track, expected.total.claim)
  const value = difference.kind === 'value' ? difference.value : null
  const verdict = verdictOf(track, expected.total.claim, value)
  const weak = verdict === 'agrees' && track.kind === 'value' && value !== null
    && Math.abs(expected.total.claim.kind === 'value' ? expected.total.claim.value.value : 0) <= halfWidth(value)
  const needed = monotone(track, expected.beforeN.claim, 'rises', (gain, before) =>
    neededLoad(gain, before, weightN, expected.sensitivity.sensitivity))
  return {
    expected, neededN: told(needed), atSpeedMs,
    loadDifferenceN: statementOf(subtractClaims(expected.afterN.claim, needed)),
    difference: statementOf(difference), normalisedError: value && normalisedError(value), verdict, weak,
    remarks: explanations(track, expected, verdict, weak, circumstances),
  }
}

function verdictOf(track: Claim, expected: Claim, difference: Uncertain | null): AgreementVerdict {
  if (track.kind !== 'value' || expected.kind === 'untold') return 'untold'
  if (difference) {
    const error = normalisedError(difference)
    return Math.abs(error) <= 1 ? 'agrees' : error < 0 ? 'trackLower' : 'trackHigher'
  }
  const { low, high } = { low: null, high: null, ...expected } as { low: Uncertain | null; high: Uncertain | null }
  if (low && upperBound(minus(track.value, low)) < 0) return 'trackLower'
  if (high && lowerBound(minus(track.value, high)) > 0) return 'trackHigher'
  return 'compatible'
}

function explanations(
  track: Claim, expected: ExpectedGain, verdict: AgreementVerdict, weak: boolean, at: Circumstances,
): Remark[] {
  if (verdict === 'untold') return [remark('agreementUntold')]
  const found: Remark[] = []
  if (at.manoeuvre === 'launch' && verdict !== 'agrees') found.push(remark('explainPowerLimit'))
  if (verdict === 'trackLower' || verdict === 'trackHigher') found.push(...ofDisagreement(track, expected, verdict, at))
  if (verdict === 'compatible') found.push(remark('benchOnlyBounds'))
  if (weak) found.push(remark('agreementWeak'))
  const { claim } = expected.total
  if (claim.kind === 'value' && claim.extrapolated) found.push(remark('benchExtrapolated'))
  return found
}

function ofDisagreement(
  track: Claim, expected: ExpectedGain, verdict: 'trackLower' | 'trackHigher', at: Circumstances,
): Remark[] {
  const found: Remark[] = []
  if (!at.driftRemoved) found.push(remark('explainOrder'))
  if (track.kind === 'value') {
    found.push(...limitedAxles(track.value, expected), ...otherSensitivity(track.value, expected))
  }
  if (at.warmerK !== null || at.drift === 'rises' || at.drift === 'falls') {
    found.push(remark('explainTyres'))
  }
  found.push(remark(verdict === 'trackLower' ? 'explainAirLess' : 'explainAirMore'))
  return found
}

/** An axle whose own gain fits the track: that end gives way first, the load on the other is of no use. */
function limitedAxles(track: Uncertain, expected: ExpectedGain): Remark[] {
  return AXLES.flatMap((axle) => {
    const { claim } = expected.axles[axle]
    if (claim.kind !== 'value' || Math.abs(normalisedError(minus(track, claim.value))) > 1) return []
    return [remark('explainBalance', { axle, gain: claim.value.value })]
  })
}

/** The sensitivity that would bring both together, where it is one that a tyre may have. */
function otherSensitivity(track: Uncertain, expected: ExpectedGain): Remark[] {
  const { claim } = expected.total
  if (claim.kind !== 'value') return []
  const { value: assumed } = expected.sensitivity.sensitivity
  const power = (1 - assumed) * (Math.log1p(track.value) / Math.log1p(claim.value.value))
  const needed = 1 - power
  if (!(needed >= -0.1 && needed <= 0.6)) return []
  return [remark('explainSensitivity', { sensitivity: needed, assumed })]
}

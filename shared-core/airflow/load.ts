/** From an axle's drop to its load, with set-up height, tyre and touching taken into account. */
import { readForce, type Branch, type Calibration, type DropReading } from '@core/calibration'
import type { Axle } from '@core/schema'
import {
  exact, plus, standardUncertainty, subtractClaims, times, untold, type Claim, type Uncertain,
} from '@core/uncertainty'

export interface DropToRead {
  /** Drop from the run's own zero, mm. */
  readonly dropMm: Uncertain
  /** This run's zero below the squat test's zero, mm. */
  readonly staticDropMm: number
  readonly branch: Branch
  readonly touched: boolean
  /** Drop of the tyre per newton to be added; null for none. */
  readonly squashMmPerN: Uncertain | null
}

export interface LoadRead {
  readonly claim: Claim
  /** Drop added for the tyre's squash, mm. */
  readonly squashMm: Uncertain | null
}

const MOST_STEPS = 60

/**
 * Load on an axle. Where the car was set lower than in the squat test, the curve is read at the whole
 * drop and at the set-up's own, and the load is the difference: exact for a straight curve and for
 * stops that stay with the wheel's travel; for a progressive curve it takes the lowering as travel.
 */
export function loadFromDrop(axle: Axle, calibration: Calibration | null, read: DropToRead): LoadRead {
  if (!calibration) return { claim: untold('missing', { code: 'noCurve', axle }), squashMm: null }
  const { squashMmPerN } = read
  if (!squashMmPerN) return { claim: fromWholeDrop(calibration, read), squashMm: null }
  // The squash depends on the load and the load on it: a contraction, since tyres are stiff.
  let squashMm: Uncertain = exact(0)
  for (let step = 0; step < MOST_STEPS; step++) {
    const claim = fromWholeDrop(calibration, { ...read, dropMm: plus(read.dropMm, squashMm) })
    const force = claim.kind === 'value' ? claim.value : claim.kind === 'atLeast' ? claim.low : null
    if (!force) return { claim, squashMm }
    const next = times(force, squashMmPerN)
    if (Math.abs(next.value - squashMm.value) < 1e-9) return { claim, squashMm: next }
    squashMm = next
  }
  return { claim: untold('noFixedPoint', { code: 'tyreFirst' }), squashMm: null }
}

function fromWholeDrop(calibration: Calibration, { dropMm, staticDropMm, branch, touched }: DropToRead): Claim {
  const lowered = Math.max(0, staticDropMm)
  const whole = clearlyMoved(calibration, { dropMm: plus(dropMm, exact(lowered)), branch, touched })
  if (lowered === 0) return whole
  const resting = readForce(calibration, { dropMm: exact(lowered), branch: 'mid', touched: false }).claim
  return subtractClaims(whole, resting)
}

/** A drop this many standard uncertainties above none has surely left the stop. */
const SURELY = 3

/**
 * The reading, with a stricter eye on its beginning. Where nothing moves up to a threshold (or within
 * friction), a drop that is just clear of none at 95 % is, among many readings of nothing, one in
 * twenty; read plainly it would be wrong by most of the threshold. Until it is surely clear it stays
 * a bound.
 */
function clearlyMoved(calibration: Calibration, reading: DropReading): Claim {
  const { claim } = readForce(calibration, reading)
  const { dropMm } = reading
  if (claim.kind !== 'value' || dropMm.value > SURELY * standardUncertainty(dropMm)) return claim
  const atNone = readForce(calibration, { ...reading, dropMm: { value: 0, parts: dropMm.parts } }).claim
  if (atNone.kind !== 'between') return claim
  return { kind: 'between', low: atNone.low, high: claim.value, reason: atNone.reason }
}

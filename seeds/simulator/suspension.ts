/**
 * The true suspension: an elastic curve in series with dry friction (play), one for each axle, on a
 * rigid chassis. Written apart from the product's own curves, so that neither can hide the other's
 * mistakes. Forces N, drops mm.
 */

export type TrueCurve =
  | { readonly kind: 'linear'; readonly rateNPerMm: number }
  /** force = rate d + growth d^2 */
  | { readonly kind: 'progressive'; readonly rateNPerMm: number; readonly growthNPerMm2: number }
  | { readonly kind: 'threshold'; readonly thresholdN: number; readonly rateNPerMm: number }
  | { readonly kind: 'stop'; readonly rateNPerMm: number; readonly kneeMm: number; readonly stopRateNPerMm: number }
  | {
      readonly kind: 'thresholdStop'; readonly thresholdN: number; readonly rateNPerMm: number; readonly kneeMm: number
      readonly stopRateNPerMm: number
    }

/** Drop under an elastic force. */
export function trueDrop(curve: TrueCurve, elasticN: number): number {
  switch (curve.kind) {
    case 'linear': return elasticN / curve.rateNPerMm
    case 'progressive': {
      const { rateNPerMm: k, growthNPerMm2: c } = curve
      if (elasticN <= 0 || c === 0) return elasticN / k
      return (-k + Math.sqrt(k * k + 4 * c * elasticN)) / (2 * c)
    }
    case 'threshold': return Math.max(0, elasticN - curve.thresholdN) / curve.rateNPerMm
    case 'stop': return kneed(elasticN, curve.rateNPerMm, curve.kneeMm, curve.stopRateNPerMm)
    case 'thresholdStop':
      return kneed(Math.max(0, elasticN - curve.thresholdN), curve.rateNPerMm, curve.kneeMm, curve.stopRateNPerMm)
  }
}

const kneed = (forceN: number, rate: number, kneeMm: number, stopRate: number): number =>
  (forceN <= rate * kneeMm ? forceN / rate : kneeMm + (forceN - rate * kneeMm) / stopRate)

export interface TrueAxle {
  readonly curve: TrueCurve
  /** Half the gap between the branches. */
  readonly frictionN: number
  /** Drop at which the tray is on the ground; null for never. */
  readonly touchMm: number | null
}

/** One axle's suspension with its memory. */
export class Suspension {
  private elasticN = 0

  constructor(private readonly axle: TrueAxle) {}

  /** Puts a force on, slowly; friction holds back. */
  apply(forceN: number): void {
    const { frictionN } = this.axle
    this.elasticN = Math.min(Math.max(this.elasticN, forceN - frictionN), forceN + frictionN)
  }

  /** Taps or bounces the car under a force: friction lets go. */
  settle(forceN: number): void {
    this.elasticN = forceN
  }

  /** Drop now; the ground stops it. */
  dropMm(): number {
    const free = trueDrop(this.axle.curve, this.elasticN)
    return this.axle.touchMm === null ? free : Math.min(free, this.axle.touchMm)
  }

  touched(): boolean {
    return this.axle.touchMm !== null && trueDrop(this.axle.curve, this.elasticN) >= this.axle.touchMm
  }
}

/** Least force (settled) at which the axle touches, N; null for never. */
export function touchForce({ curve, touchMm }: TrueAxle): number | null {
  if (touchMm === null) return null
  let low = 0
  let high = 1e4
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2
    if (trueDrop(curve, middle) < touchMm) low = middle
    else high = middle
  }
  return high
}

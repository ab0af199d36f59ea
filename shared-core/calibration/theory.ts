/**
 * The theoretical route: a spring's dimensions to the axle's rate, to be drawn beside the measured
 * curve. k = G d^4 / (8 D^3 n) for a helical spring of round wire; wheel rate = k x (motion ratio)^2
 * (any machine-design handbook and vehicle-dynamics text). Bushes, tyres and friction are left out.
 */
import type { Axle, Chassis, Spring } from '@core/schema'
import { combine, entered, scaled, type Uncertain } from '@core/uncertainty'

export interface SpringTheory {
  readonly springId: string
  readonly name: string
  /** `wire`: from its dimensions; `seller`: as given. */
  readonly route: 'wire' | 'seller'
  readonly springRateNPerMm: Uncertain
  readonly wheelRateNPerMm: Uncertain
  /** Both wheels of the axle together. Two springs of one kind err alike, so this is twice one wheel. */
  readonly axleRateNPerMm: Uncertain
}

/** Rates of one spring; null where neither its dimensions nor a rate are known. */
export function springTheory(spring: Spring): SpringTheory | null {
  const own = springRate(spring)
  if (!own) return null
  const ratio = alike('motionRatio', spring.motionRatio)
  const wheelRateNPerMm = combine(own.rate.value * ratio.value ** 2, [
    [own.rate, ratio.value ** 2], [ratio, 2 * own.rate.value * ratio.value],
  ])
  return {
    springId: spring.id, name: spring.name, route: own.route, springRateNPerMm: own.rate, wheelRateNPerMm,
    axleRateNPerMm: scaled(wheelRateNPerMm, 2),
  }
}

/** The rates of the springs that belong on an axle, the fitted ones first. */
export function axleTheory({ springs }: Chassis, axle: Axle): SpringTheory[] {
  return springs.filter((each) => each.axle === axle).sort((a, b) => Number(b.fitted) - Number(a.fitted))
    .flatMap((each) => springTheory(each) ?? [])
}

const part = (spring: Spring, what: string, measured: { value: number; u: number }): Uncertain =>
  entered(measured, 'spring', `spring:${spring.id}:${what}`)

/** Entered alike for two springs it is one car's or one steel's, and goes out of the ratio of their rates. */
const alike = (what: string, measured: { value: number; u: number }): Uncertain =>
  entered(measured, 'spring', `spring:${what}:${measured.value}:${measured.u}`)

function springRate(spring: Spring): { rate: Uncertain; route: SpringTheory['route'] } | null {
  const { wireMm, meanCoilMm, activeCoils, shearModulusPa, rateNPerMm } = spring
  if (wireMm && meanCoilMm && activeCoils && shearModulusPa) {
    const d = part(spring, 'wire', wireMm)
    const coil = part(spring, 'coil', meanCoilMm)
    const n = part(spring, 'coils', activeCoils)
    const g = alike('modulus', shearModulusPa)
    // Pa mm is N/m^2 mm = 1e-6 N/mm.
    const k = (1e-6 * g.value * d.value ** 4) / (8 * coil.value ** 3 * n.value)
    return {
      route: 'wire',
      rate: combine(k, [[g, k / g.value], [d, (4 * k) / d.value], [coil, (-3 * k) / coil.value], [n, -k / n.value]]),
    }
  }
  return rateNPerMm ? { route: 'seller', rate: part(spring, 'rate', rateNPerMm) } : null
}

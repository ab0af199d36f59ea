/**
 * From points with named sources to what the fit takes: a source that touches several points, or
 * both force and drop of one, becomes a shared factor; the rest are the points' own errors.
 */
import type { Part, Source } from '@core/uncertainty'
import type { FitData, FrictionChoice } from './select/types'
import type { Branch, CurvePoint } from './types'

/** One kind of the points' own errors and its share of their variance. */
export interface NoiseKind { readonly source: Source; readonly share: number }

/** One of the sources behind a factor, with its signed share: the shares' squares add up to 1. */
export interface FactorMember { readonly source: Source; readonly share: number }

export interface PreparedFit {
  readonly data: FitData
  /** Points that take part, in the order of the data. */
  readonly points: readonly CurvePoint[]
  /**
   * Sources behind `data.factors`, in their order. Sources that move all points in the same proportion
   * (gain and gravity, say) cannot be told apart by the points and make one factor together.
   */
  readonly factors: readonly (readonly FactorMember[])[]
  readonly noise: readonly NoiseKind[]
}

export const signOf = (branch: Branch): -1 | 0 | 1 => (branch === 'mid' ? 0 : branch === 'loading' ? 1 : -1)

interface Touch { readonly point: number; readonly onForce: boolean; readonly contribution: number }

/** Sources whose effects on the points are one pattern times a size of their own. */
interface Proportional {
  readonly pattern: readonly Touch[]
  readonly members: { readonly source: Source; readonly size: number }[]
}

/** Arrays of the used points. */
export function preparedFit(all: readonly CurvePoint[], friction: FrictionChoice): PreparedFit {
  const points = all.filter(({ used }) => used)
  const n = points.length
  const touches = new Map<string, { source: Source; list: Touch[] }>()
  const note = (point: number, onForce: boolean) => ({ source, contribution }: Part) => {
    if (contribution === 0) return
    const held = touches.get(source.id)
    if (held) held.list.push({ point, onForce, contribution })
    else touches.set(source.id, { source, list: [{ point, onForce, contribution }] })
  }
  points.forEach(({ forceN, dropMm }, i) => {
    forceN.parts.forEach(note(i, true))
    dropMm.parts.forEach(note(i, false))
  })
  const squareForce = new Float64Array(n)
  const squareDrop = new Float64Array(n)
  const groups = new Map<string, Proportional>()
  const own: { source: Source; touch: Touch }[] = []
  for (const { source, list } of touches.values()) {
    if (list.length === 1) {
      const touch = list[0]!
      ;(touch.onForce ? squareForce : squareDrop)[touch.point]! += touch.contribution ** 2
      own.push({ source, touch })
      continue
    }
    const size = Math.sign(list[0]!.contribution) * Math.hypot(...list.map(({ contribution }) => contribution))
    const pattern = list.map((each) => ({ ...each, contribution: each.contribution / size }))
    const key = pattern.map(({ point, onForce, contribution }) =>
      `${point}${onForce ? 'f' : 'd'}${contribution.toFixed(9)}`).join()
    const held = groups.get(key)
    if (held) held.members.push({ source, size })
    else groups.set(key, { pattern, members: [{ source, size }] })
  }
  const factors: FactorMember[][] = []
  const shared = [...groups.values()].map(({ pattern, members }) => {
    const total = Math.hypot(...members.map(({ size }) => size))
    factors.push(members.map(({ source, size }) => ({ source, share: size / total })))
    const side = (onForce: boolean) => {
      if (!pattern.some((each) => each.onForce === onForce)) return null
      const values = new Float64Array(n)
      for (const each of pattern) if (each.onForce === onForce) values[each.point] = total * each.contribution
      return values
    }
    return { id: members[0]!.source.id, onForceN: side(true), onDropMm: side(false) }
  })
  return {
    points, factors, noise: noiseKinds(own, points),
    data: {
      forceN: Float64Array.from(points, ({ forceN }) => forceN.value),
      dropMm: Float64Array.from(points, ({ dropMm }) => dropMm.value),
      uForceN: squareForce.map(Math.sqrt),
      uDropMm: squareDrop.map(Math.sqrt),
      branchSign: points.map(({ branch }) => signOf(branch)),
      turnForceN: points.map(({ turnN }) => turnN ?? NaN),
      touched: points.map(({ touched }) => touched),
      factors: shared,
      friction,
    },
  }
}

/** Shares of the points' own variance by group and origin, forces brought to drops by the mean slope. */
function noiseKinds(own: readonly { source: Source; touch: Touch }[], points: readonly CurvePoint[]): NoiseKind[] {
  const top = (pick: (point: CurvePoint) => number) => Math.max(...points.map(pick), 0)
  const rangeN = top(({ forceN }) => forceN.value)
  const slope = rangeN > 0 ? top(({ dropMm }) => dropMm.value) / rangeN : 0
  const kinds = new Map<string, { source: Source; square: number }>()
  let total = 0
  for (const { source, touch } of own) {
    const square = (touch.contribution * (touch.onForce ? slope : 1)) ** 2
    total += square
    const key = `${source.group}|${source.dof}|${source.pool ?? ''}`
    const held = kinds.get(key)
    if (held) held.square += square
    else kinds.set(key, { source, square })
  }
  return [...kinds.values()].filter(({ square }) => square > 0)
    .map(({ source, square }) => ({ source, share: square / total }))
}

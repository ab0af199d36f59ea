/**
 * Passes before a camera, both ways. What the two ways do: a head wind w makes the air's speed
 * V + w one way and V - w the other; the mean of the squares is V^2 + w^2, free of w itself. The
 * pitch that a slope gives has opposite signs and drops out too. What they leave: w^2, which the
 * difference between the ways tells, and a cross wind, which nothing here tells.
 */
import { remark, type Remark } from '@core/remark'
import {
  CLEAR_FOR_LOGARITHM, combine, COVERAGE_FACTOR, exact, fromSource, known, plus, scaled, standardUncertainty, sum,
  type Uncertain,
} from '@core/uncertainty'

export interface Pass {
  readonly stateId: string
  readonly direction: 'out' | 'back' | null
  readonly speedMs: Uncertain
  /** Drop of both axle lines together, mm. */
  readonly dropMm: Uncertain | null
}

/** Shares of the mean: each way counts half, its passes alike. One way alone counts whole. */
export function passWeights(directions: readonly ('out' | 'back' | null)[]): number[] {
  const outs = directions.filter((each) => each !== 'back').length
  const backs = directions.length - outs
  const bothWays = outs > 0 && backs > 0
  return directions.map((each) => {
    const own = each === 'back' ? backs : outs
    return bothWays ? 1 / (2 * own) : 1 / own
  })
}

/** Wind found from the two ways, m/s along the road, + against the way out. */
export function windOf(passes: readonly Pass[], weights: readonly number[]): Uncertain | null {
  const way = (direction: 'out' | 'back'): Uncertain | null => {
    const own = passes.flatMap(({ direction: its, dropMm, speedMs }, i) => {
      const here = (its === 'back') === (direction === 'back')
      return here && dropMm ? [{ weight: weights[i]!, perSquare: scaled(dropMm, 1 / speedMs.value ** 2) }] : []
    })
    const total = own.reduce((held, { weight }) => held + weight, 0)
    return total > 0 ? sum(own.map(({ weight, perSquare }) => scaled(perSquare, weight / total))) : null
  }
  const out = way('out')
  const back = way('back')
  if (!out || !back) return null
  const both = plus(out, back)
  if (Math.abs(both.value) <= CLEAR_FOR_LOGARITHM * standardUncertainty(both)) return null
  const speed = passes.reduce((held, pass, i) => held + weights[i]! * pass.speedMs.value, 0)
  const ratio = (out.value - back.value) / both.value
  return combine((ratio * speed) / 2, [
    [out, (speed * back.value) / both.value ** 2], [back, (-speed * out.value) / both.value ** 2],
  ])
}

/** Mean square of the air's speed over the passes, with what the wind adds. */
export function passFlow(
  passes: readonly Pass[], weights: readonly number[], name: string,
): { meanSquareM2S2: Uncertain; remarks: Remark[] } {
  const road = sum(passes.map(({ speedMs }, i) =>
    combine(weights[i]! * speedMs.value ** 2, [[speedMs, 2 * weights[i]! * speedMs.value]])))
  const bothWays = new Set(passes.map(({ direction }) => (direction === 'back' ? 'back' : 'out'))).size === 2
  if (!bothWays) return { meanSquareM2S2: road, remarks: [remark('oneWay')] }
  const wind = windOf(passes, weights)
  if (!wind) return { meanSquareM2S2: road, remarks: [remark('twoWays')] }
  const u = standardUncertainty(wind)
  const clear = Math.abs(wind.value) > COVERAGE_FACTOR * u
  const square = clear ? wind.value ** 2 : 0
  const left = clear ? 2 * Math.abs(wind.value) * u : u * u
  const added = left > 0 ? fromSource(square, left, known('wind', `wind:${name}`)) : exact(square)
  return {
    meanSquareM2S2: plus(road, added),
    remarks: [clear ? remark('windFound', { windMs: wind.value, uMs: u }) : remark('twoWays')],
  }
}

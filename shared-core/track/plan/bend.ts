/**
 * What a straight drift out of the way still leaves: tyres that come in and then go off bend. In the order
 * A B B A the device follows such a bend exactly, and no reading can part them; a block that begins with the
 * other one does.
 */
import type { RunLevel } from '../types'

/** Beyond this correlation a bend can't be told from the device: a variance inflated fivefold. */
const TOGETHER = 0.9

/** A column less its part along others, which are at right angles to each other. */
function without(values: readonly number[], others: readonly (readonly number[])[]): number[] {
  return others.reduce((left: readonly number[], other) => {
    const square = product(other, other)
    const share = square > 0 ? product(left, other) / square : 0
    return left.map((each, i) => each - share * other[i]!)
  }, values) as number[]
}

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, each, i) => sum + each * b[i]!, 0)

/** Correlation of the device with the bend of the order, both with mean and straight drift taken out; 0 to 1. */
export function bendCorrelation(
  runs: readonly Pick<RunLevel, 'configurationId' | 'order'>[], beforeId: string, afterId: string,
): number {
  const own = runs.filter(({ configurationId }) => configurationId === beforeId || configurationId === afterId)
  const level = own.map(() => 1)
  const straight = without(own.map(({ order }) => order), [level])
  const bend = without(straight.map((each) => each * each), [level, straight])
  const device = without(own.map(({ configurationId }) => (configurationId === afterId ? 1 : 0)), [level, straight])
  const size = Math.sqrt(product(bend, bend) * product(device, device))
  return size > 1e-9 ? Math.abs(product(bend, device)) / size : 0
}

/** True where a drift that bends looks the same as the device. */
export const bendFollows = (...of: Parameters<typeof bendCorrelation>): boolean => bendCorrelation(...of) > TOGETHER

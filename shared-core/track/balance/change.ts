/**
 * Understeer gradient before and after a change: the mean of each set-up's runs, and their difference. The
 * wheelbase that all of them share is in both.
 */
import { intervalStatement, mean, minus, type Statement, type Uncertain } from '@core/uncertainty'
import type { UndersteerGradient } from './gradient'

export interface GradientChange {
  readonly beforeId: string
  readonly afterId: string
  /** rad per m/s2. */
  readonly before: Statement
  readonly after: Statement
  /** After less before. */
  readonly difference: Statement
  /** Does it understeer more after than before? `same` where the interval holds zero. */
  readonly tendency: 'more' | 'less' | 'same'
}

/** Every set-up with a gradient against each that was driven before it. */
export function gradientChanges(gradients: readonly UndersteerGradient[]): GradientChange[] {
  const ids = [...new Set(gradients.map(({ configurationId }) => configurationId))]
  const of = (id: string): Uncertain =>
    mean(gradients.flatMap((each) => (each.configurationId === id ? [each.value] : [])))
  return ids.flatMap((afterId, at) => ids.slice(0, at).map((beforeId): GradientChange => {
    const [before, after] = [of(beforeId), of(afterId)]
    const difference = intervalStatement(minus(after, before))
    const { low, high } = difference.interval
    return {
      beforeId, afterId, before: intervalStatement(before), after: intervalStatement(after), difference,
      tendency: low > 0 ? 'more' : high < 0 ? 'less' : 'same',
    }
  }))
}

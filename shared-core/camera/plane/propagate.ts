/** First-order propagation through a function given as code, by differences as wide as each input's own u. */
import { combine, standardUncertainty, type Uncertain } from '@core/uncertainty'

/**
 * The function's value at the estimates with its dependence on every source of the inputs. Each
 * sensitivity is the slope between the estimate plus and minus the input's standard uncertainty
 * (JCGM 100:2008, 5.1.4, note 2), so a slight bend is averaged over the width that matters.
 *
 * @param inputs uncertain inputs; exact ones cost nothing
 * @param f pure; may return NaN where it has no value, which then shows in the result
 */
export function propagate(inputs: readonly Uncertain[], f: (values: readonly number[]) => number): Uncertain {
  const values = inputs.map(({ value }) => value)
  const terms: [Uncertain, number][] = []
  inputs.forEach((input, i) => {
    const step = standardUncertainty(input)
    if (step === 0) return
    const slope = (f(values.with(i, values[i]! + step)) - f(values.with(i, values[i]! - step))) / (2 * step)
    terms.push([input, slope])
  })
  return combine(f(values), terms)
}

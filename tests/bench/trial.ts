/**
 * The Monte Carlo benchmark's measurement: a force read back from a drop through drop = a F + b F^2,
 * five random sources: the gauge's reading and zero, both coefficients, and the scale's gain.
 */
import {
  combine, exact, fromSource, known, trialsOf, type Source, type Trials, type Uncertain,
} from '@core/uncertainty'

const source = (id: string): Source =>
  known('readingRounding', id)

/** Estimates and standard uncertainties, mm and N; the other side of the benchmark uses the same. */
export const VALUES = {
  drop: 3.4, uReading: 0.05, uZero: 0.03, a: 0.62, uA: 0.006, b: -0.012, uB: 0.0004, uGain: 0.004,
}

export function forceTrials(): Trials {
  const { drop, uReading, uZero, a, uA, b, uB, uGain } = VALUES
  const zero = fromSource(0, uZero, source('zero'))
  const inputs: Uncertain[] = [
    combine(drop, [[fromSource(drop, uReading, source('reading')), 1], [zero, 1]]),
    fromSource(a, uA, source('a')), fromSource(b, uB, source('b')), fromSource(1, uGain, source('gain')), exact(0),
  ]
  return trialsOf([{ weight: 1, inputs, model: readBack }], 1)
}

function readBack(inputs: Float64Array, outputs: Float64Array): void {
  const a = inputs[1]!
  const b = inputs[2]!
  outputs[0] = (inputs[3]! * (Math.sqrt(a * a + 4 * b * inputs[0]!) - a)) / (2 * b)
}

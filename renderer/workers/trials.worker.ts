/** Monte Carlo of the load of one axle in one run, in blocks. */
import { readForceByMonteCarlo, type Calibration, type DropReading, type NetForce } from '@core/calibration'
import type { Statement } from '@core/uncertainty'
import { serve, type Tools } from './serve'

export interface TrialsQuestion {
  readonly calibration: Calibration
  readonly reading: DropReading
  readonly net: NetForce
  readonly seed: number
}
export interface Stated {
  readonly statement: Statement
  readonly trials: number
  /** Whether propagation tells the same; null for a bound. */
  readonly agrees: boolean | null
}

async function state(question: TrialsQuestion, { signal, progress }: Tools<{ share: number }>): Promise<Stated> {
  const { calibration, reading, net, seed } = question
  const run = readForceByMonteCarlo(calibration, reading, { seed, toleranceShare: 0.2 }, net)
  for (;;) {
    const step = run.next()
    if (step.done) {
      const { statement, trials, validation } = step.value
      return { statement, trials, agrees: validation && validation.agrees }
    }
    await progress({ share: step.value.share })
    signal.throwIfAborted()
  }
}

const deeds = { state }
export type TrialsDeeds = typeof deeds
serve(deeds)

/** Monte Carlo of one reading, in blocks: says how far it is, stops when told to. */
import { readForceByMonteCarlo, type Calibration, type DropReading } from '@core/calibration'
import type { Statement } from '@core/uncertainty'

export type TrialsQuestion =
  | { readonly kind: 'run'; readonly calibration: Calibration; readonly reading: DropReading; readonly seed: number }
  | { readonly kind: 'cancel' }
export type TrialsReply =
  | { readonly kind: 'progress'; readonly share: number; readonly trials: number }
  | { readonly kind: 'done'; readonly statement: Statement; readonly trials: number; readonly stable: boolean; readonly agrees: boolean | null }
  | { readonly kind: 'cancelled' }

let stopped = false
/** Lets a waiting `cancel` message in between two blocks. */
const breathe = (): Promise<void> => new Promise((resolve) => { setTimeout(resolve, 0) })

async function run(calibration: Calibration, reading: DropReading, seed: number): Promise<void> {
  stopped = false
  const trials = readForceByMonteCarlo(calibration, reading, { seed, toleranceShare: 0.2 })
  for (;;) {
    const step = trials.next()
    if (step.done) {
      const { statement, trials: count, stable, validation } = step.value
      const agrees = validation && validation.agrees
      self.postMessage({ kind: 'done', statement, trials: count, stable, agrees } satisfies TrialsReply)
      return
    }
    self.postMessage({ kind: 'progress', share: step.value.share, trials: step.value.trials } satisfies TrialsReply)
    await breathe()
    if (stopped) { self.postMessage({ kind: 'cancelled' } satisfies TrialsReply); return }
  }
}

self.onmessage = (event: MessageEvent<TrialsQuestion>) => {
  if (event.data.kind === 'cancel') stopped = true
  else void run(event.data.calibration, event.data.reading, event.data.seed)
}

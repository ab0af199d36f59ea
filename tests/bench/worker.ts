/** Draws the blocks it is asked for and hands them over without a copy. */
import { parentPort } from 'node:worker_threads'
import { forceTrials } from './trial'

const trials = forceTrials()

parentPort!.on('message', ({ seed, blocks, size }: { seed: number; blocks: number[]; size: number }) => {
  const drawn = blocks.map((index) => ({ index, values: trials.block(seed, index, size)[0]! }))
  parentPort!.postMessage(drawn, drawn.map(({ values }) => values.buffer as ArrayBuffer))
})

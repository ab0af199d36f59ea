/** Writes the demo's exchange file, its log and its truth: `npm run seeds`. Same bytes every time. */
import { writeFileSync } from 'node:fs'
import { exchange as exchangeSchema } from '@core/schema'
import { makeDemo } from './demo'

/** The demo of the product; other seeds give other days at the same bench. */
export const DEMO_SEED = 20310504

/** The three files' texts. */
export function demoTexts(seed = DEMO_SEED): { exchange: string; log: string; truth: string } {
  const { exchange, log, truth } = makeDemo(seed)
  return {
    exchange: `${JSON.stringify(exchangeSchema.parse(exchange), null, 1)}\n`, log,
    truth: `${JSON.stringify(truth, null, 1)}\n`,
  }
}

if (process.argv[1]?.endsWith('generate.ts')) {
  const texts = demoTexts()
  writeFileSync(new URL('demo.json', import.meta.url), texts.exchange)
  writeFileSync(new URL('demo-truth.json', import.meta.url), texts.truth)
  writeFileSync(new URL('demo-log.csv', import.meta.url), texts.log)
  console.log(`seeds/demo.json ${texts.exchange.length} bytes, seeds/demo-log.csv ${texts.log.length} bytes, `
    + `seeds/demo-truth.json ${texts.truth.length} bytes`)
}

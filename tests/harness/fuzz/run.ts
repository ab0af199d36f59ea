/**
 * `npm run fuzz -- [--cases N] [--seed N]`: exchange files, service messages, logs and picture headers, mutated
 * from valid ones and made up from nothing. Nothing may throw, hang, write outside the library, or be refused
 */
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import type { Figure } from '../figure'
import { report } from '../figure'
import { exchangeTarget, headerTarget, logTarget, messageTarget } from './targets'
import type { Target } from './targets'

/** A case that takes longer counts as a hang, ms. */
const HANG_MS = 1000

async function fuzz(target: Target, cases: number, seed: number): Promise<Figure> {
  const findings: string[] = []
  let slowestMs = 0
  for (let index = 0; index < cases; index += 1) {
    const own = seed + index
    const startMs = performance.now()
    const wrong = await target.run(own).catch((error: unknown) =>
      `threw ${error instanceof Error ? (error.stack ?? error.message).slice(0, 400) : String(error)}`)
    const tookMs = performance.now() - startMs
    slowestMs = Math.max(slowestMs, tookMs)
    if (wrong !== null) findings.push(`seed ${own}: ${wrong}`)
    if (tookMs > HANG_MS) findings.push(`seed ${own}: took ${Math.round(tookMs)} ms`)
  }
  const outside = await target.end()
  if (outside !== null) findings.push(outside)
  for (const finding of findings.slice(0, 10)) console.log(`  ${target.name}, ${finding}`)
  return {
    what: `Fuzzing ${target.name}, mutated and made up (longest case must end within ${HANG_MS} ms)`,
    figure: `${cases} cases from seed ${seed}, ${findings.length} findings, slowest ${Math.ceil(slowestMs)} ms`,
    good: findings.length === 0,
  }
}

/** Fuzzes every target with its share of the cases. */
export async function fuzzFigures(cases = 100_000, seed = 1): Promise<Figure[]> {
  const demo = readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')
  const figures: Figure[] = []
  for (const target of [exchangeTarget(demo), await messageTarget(), logTarget, headerTarget()]) {
    figures.push(await fuzz(target, Math.round(cases * target.share), seed))
  }
  return figures
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({
    options: { cases: { type: 'string', default: '100000' }, seed: { type: 'string', default: '1' } },
  })
  report('Fuzzing', await fuzzFigures(Number(values.cases), Number(values.seed)))
}

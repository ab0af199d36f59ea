/**
 * `tsx tests/harness/attacks/mutants.ts [--cases N] [--seed N]`: the demo's file, changed in ways nobody would send,
 * through all that `npm run analyse` does. Each case must end by exit code 0, 1 or 2 within 10 s, and state nothing
 * ill-formed: no NaN, no infinite end, no low above high. Two processes take the cases; one that hangs is killed, and
 * its case is lost.
 */
import { fork } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { openExchangeText, type Exchange } from '@core/schema'
import { asJson } from '../../../electron/headless/asJson'
import { asTable } from '../../../electron/headless/asTable'
import { readOptions } from '../../../electron/headless/options'
import { exitCodeOf, resultsOf } from '../../../electron/headless/results'
import { faultOf, statementsIn } from '../../property/statementsIn'
import type { Figure } from '../figure'
import { report } from '../figure'
import { chance, mutateText, mutateTree, type Chance } from '../fuzz/mutate'

/** Longest case, ms of processor time: what other programs take does not count. */
const MOST_MS = 10_000
/** A case that has not ended by then on the clock hangs. */
const HANG_MS = 120_000
const PROCESSES = 2
const WISHES = readOptions(['demo.json', '--find', '0.001'])

interface Outcome {
  readonly seed: number
  readonly code: 0 | 1 | 2
  readonly ms: number
  readonly wrong: string | null
}

/** Most runs that are left of a session: the fewer, the more cases. */
const RUNS = 3

/** A part of the demo: one or two of its sessions with some of their runs mostly, the whole now and then. */
function partOf(demo: Exchange, { int, pick }: Chance): Exchange {
  if (int(0, 99) === 0) return demo
  const sessions = int(0, 2) === 0 ? [demo.sessions[0]!, pick(demo.sessions.slice(1))] : [pick(demo.sessions)]
  const fewer = <T>(runs: readonly T[]): T[] => {
    const from = int(0, runs.length - 1)
    return runs.slice(from, from + RUNS)
  }
  return { ...demo, sessions: sessions.map((each) => ('runs' in each ? { ...each, runs: fewer<never>(each.runs as never) } : each)) }
}

/** Numbers scaled, turned or set to what a slip of the hand makes: most of these files open. */
function slip(tree: unknown, { int, pick }: Chance): unknown {
  const numbers: { branch: Record<string, unknown>; key: string }[] = []
  const collect = (branch: unknown): void => {
    if (typeof branch !== 'object' || branch === null) return
    for (const [key, value] of Object.entries(branch)) {
      if (typeof value === 'number') numbers.push({ branch: branch as Record<string, unknown>, key })
      else collect(value)
    }
  }
  const made = structuredClone(tree)
  collect(made)
  for (let count = int(1, 3); count > 0 && numbers.length > 0; count -= 1) {
    const { branch, key } = pick(numbers)
    const value = branch[key] as number
    if (key === 'schemaVersion' || key === 'revision') continue
    branch[key] = value * pick([-1, 10, 0.1, 1.5, 0.5, 0, 1.01, 1e4, 1e-4])
  }
  return made
}

function mutantText(demo: Exchange, some: Chance): string {
  const part = partOf(demo, some)
  const way = some.int(0, 9)
  if (way === 0) return mutateText(JSON.stringify(part), some)
  return JSON.stringify(way < 4 ? mutateTree(part, some) : slip(part, some))
}

function runCase(demo: Exchange, seed: number): Outcome {
  const text = mutantText(demo, chance(seed))
  const start = process.cpuUsage()
  const spentMs = (): number => {
    const { user, system } = process.cpuUsage(start)
    return (user + system) / 1000
  }
  const outcome = (code: 0 | 1 | 2, wrong: string | null): Outcome => {
    const ms = spentMs()
    return { seed, code, ms, wrong: wrong ?? (ms > MOST_MS ? `took ${ms.toFixed(0)} ms` : null) }
  }
  const opening = openExchangeText(text)
  if (opening.kind !== 'opened') return outcome(2, null)
  if (WISHES === 'help') throw new Error('no options')
  const results = resultsOf(opening.document, WISHES)
  const printed = JSON.stringify(asJson(results)) + asTable(results)
  const faults = statementsIn(results.analysis)
    .flatMap(({ where, statement }) => (faultOf(statement) === null ? [] : `${where}: ${faultOf(statement)}`))
  // An infinite number of degrees of freedom is one that JSON has no number for: it is told in words.
  const nonsense = /(.{0,80})\b(NaN|Infinity|undefined)\b/.exec(printed.replaceAll('"dof":"Infinity"', ''))
  return outcome(exitCodeOf(results), faults[0] ?? (nonsense && `${nonsense[2]} is printed: ${nonsense[0]}`))
}

const readDemo = (): Exchange =>
  JSON.parse(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')) as Exchange

function asChild(): void {
  const demo = readDemo()
  process.on('message', (seed: number) => {
    try {
      process.send?.(runCase(demo, seed))
    } catch (error) {
      const why = error instanceof Error ? (error.stack ?? error.message).slice(0, 500) : String(error)
      process.send?.({ seed, code: 1, ms: 0, wrong: `threw ${why}` })
    }
  })
  process.send?.('ready')
}

/** One process that takes case after case; a case that hangs costs the process its life. */
async function worker(next: () => number | null, done: (outcome: Outcome) => void): Promise<void> {
  for (let seed = next(); seed !== null;) {
    const child = fork(fileURLToPath(import.meta.url), ['--child'], { execArgv: ['--import', 'tsx'] })
    await new Promise<void>((ready) => child.once('message', () => ready()))
    let alive: boolean = true
    while (alive && seed !== null) {
      const own: number = seed
      const outcome = await new Promise<Outcome>((settle) => {
        const end = (wrong: string, ms: number): void => { alive = false; settle({ seed: own, code: 1, ms, wrong }) }
        const gone = (): void => end('the process ended', 0)
        const hung = setTimeout(() => { child.off('exit', gone); end(`hangs, ${HANG_MS} ms on the clock`, HANG_MS) }, HANG_MS)
        child.once('exit', gone)
        child.once('message', (told: Outcome) => { clearTimeout(hung); child.off('exit', gone); settle(told) })
        child.send(own)
      })
      done(outcome)
      seed = next()
    }
    child.kill('SIGKILL')
  }
}

/** All rows of this command. */
export async function mutantFigures(cases = 5000, seed = 1): Promise<Figure[]> {
  const outcomes: Outcome[] = []
  let given = 0
  const next = (): number | null => (given < cases ? seed + given++ : null)
  const done = (outcome: Outcome): void => {
    outcomes.push(outcome)
    if (outcome.wrong !== null) console.log(`  case ${outcome.seed}: ${outcome.wrong}`)
    if (outcomes.length % 500 === 0) console.log(`  ${outcomes.length} of ${cases}`)
  }
  await Promise.all(Array.from({ length: PROCESSES }, () => worker(next, done)))
  const lost = outcomes.filter(({ wrong }) => wrong !== null).length
  const ended = [0, 1, 2].map((code) => `${code}: ${outcomes.filter((each) => each.wrong === null && each.code === code).length}`)
  const slowest = Math.max(...outcomes.map(({ ms }) => ms))
  return [{
    what: 'The demo’s file mutated, through all of `npm run analyse`: exit 0, 1 or 2 within 10 s, nothing ill-formed stated',
    figure: `${outcomes.length} tried (exit ${ended.join(', ')}; slowest ${(slowest / 1000).toFixed(1)} s of processor time), ${lost} lost`,
    good: lost === 0 && outcomes.length === cases && slowest <= MOST_MS,
  }]
}

if (process.argv.includes('--child')) asChild()
else if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({
    options: { cases: { type: 'string', default: '5000' }, seed: { type: 'string', default: '1' } },
  })
  report('Mutants', await mutantFigures(Number(values.cases), Number(values.seed)))
}

/**
 * `npm test`: everything that must hold, in the order in which a failure is cheapest to see. Ends with what took
 * longest and the line `N passed, N failed` (and `, N skipped` where a test printed why it skips).
 */
import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { ensureBrowser } from './ensure-browser'

interface Report {
  readonly numPassedTests?: number
  readonly numFailedTests?: number
  readonly numPendingTests?: number
  readonly numTodoTests?: number
  readonly testResults?: readonly { readonly name: string; readonly startTime: number; readonly endTime: number }[]
}

const LONGEST = 8
const began = performance.now()
const count = { passed: 0, failed: 0, skipped: 0 }
const took: { what: string; seconds: number }[] = []
const scratch = mkdtempSync(join(tmpdir(), 'squatbench-test-'))

/** Runs a command; its output is shown as it comes, or held back and shown as a whole. Gives whether it ended well. */
async function run(title: string, [program, ...rest]: readonly [string, ...string[]], held = false): Promise<boolean> {
  if (!held) console.log(`\n== ${title}`)
  const from = performance.now()
  const output = held ? 'pipe' : 'inherit'
  const child = spawn(program, rest, { stdio: ['ignore', output, output], shell: process.platform === 'win32' })
  const said: Buffer[] = []
  child.stdout?.on('data', (chunk: Buffer) => said.push(chunk))
  child.stderr?.on('data', (chunk: Buffer) => said.push(chunk))
  const code = await new Promise<number | null>((done, fail) => {
    child.on('error', fail)
    child.on('close', done)
  })
  if (held) console.log(`\n== ${title}\n${Buffer.concat(said).toString()}`)
  took.push({ what: title, seconds: (performance.now() - from) / 1000 })
  return code === 0
}

/** A command that is no test runner counts as one check. */
async function check(title: string, command: readonly [string, ...string[]], held = false): Promise<boolean> {
  const good = await run(title, command, held)
  if (good) count.passed += 1
  else count.failed += 1
  return good
}

/** Runs vitest projects and adds their own count. A run that ends without a report is a failure. */
async function suite(title: string, projects: readonly string[]): Promise<void> {
  const file = join(scratch, `${projects[0]}.json`)
  const asked = projects.flatMap((project) => ['--project', project])
  const good = await run(
    title, ['npx', 'vitest', 'run', ...asked, '--reporter=default', '--reporter=json', `--outputFile.json=${file}`],
  )
  const told = reportIn(file)
  count.passed += told?.numPassedTests ?? 0
  count.skipped += (told?.numPendingTests ?? 0) + (told?.numTodoTests ?? 0)
  count.failed += Math.max(told?.numFailedTests ?? 1, good ? 0 : 1)
  for (const { name, startTime, endTime } of told?.testResults ?? []) {
    took.push({ what: relative(process.cwd(), name), seconds: (endTime - startTime) / 1000 })
  }
}

function reportIn(file: string): Report | null {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as Report
  } catch {
    return null
  }
}

try {
  ensureBrowser()
  const [, built] = await Promise.all([
    check('types', ['npx', 'vue-tsc', '--noEmit', '-p', 'tsconfig.json'], true),
    check('build', ['npx', 'electron-vite', 'build'], true),
    check('lint', ['npm', 'run', '-s', 'lint'], true),
  ])
  await suite('unit, reference and property tests', ['core', 'replacing'])
  if (built) await suite('the built app in Chromium', ['e2e', 'timed'])
} finally {
  rmSync(scratch, { recursive: true, force: true })
}

console.log('\nWhat took longest:')
for (const { what, seconds } of took.toSorted((a, b) => b.seconds - a.seconds).slice(0, LONGEST)) {
  console.log(`${seconds.toFixed(0).padStart(5)} s  ${what}`)
}
console.log(`${((performance.now() - began) / 1000).toFixed(0).padStart(5)} s  in all`)
const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : ''
console.log(`\n${count.passed} passed, ${count.failed} failed${skipped}`)
process.exit(count.failed > 0 || count.passed === 0 ? 1 : 0)

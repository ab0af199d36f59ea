/**
 * `npm test`: everything that must hold, in the order in which a failure is cheapest to see.
 * Ends with the line `N passed, N failed` (and `, N skipped` where a test printed why it skips).
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureBrowser } from './ensure-browser'

interface Count { passed: number; failed: number; skipped: number }

const count: Count = { passed: 0, failed: 0, skipped: 0 }
const scratch = mkdtempSync(join(tmpdir(), 'squatbench-test-'))

/** Runs a command with its output shown; a command that is no test runner counts as one check. */
function check(title: string, command: string[]): boolean {
  console.log(`\n== ${title}`)
  const [program, ...rest] = command
  const done = spawnSync(program as string, rest, { stdio: 'inherit', shell: process.platform === 'win32' })
  const good = done.status === 0
  if (good) count.passed += 1
  else count.failed += 1
  return good
}

/** Runs one vitest project and adds its own count. A run that ends without a report is a failure. */
function suite(title: string, project: string): void {
  console.log(`\n== ${title}`)
  const report = join(scratch, `${project}.json`)
  const done = spawnSync(
    'npx',
    ['vitest', 'run', '--project', project, '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
    { stdio: 'inherit', shell: process.platform === 'win32' },
  )
  const told = readReport(report)
  count.passed += told.passed
  count.skipped += told.skipped
  count.failed += Math.max(told.failed, done.status === 0 ? 0 : 1)
}

function readReport(file: string): Count {
  try {
    const report = JSON.parse(readFileSync(file, 'utf8')) as Record<string, number>
    return {
      passed: report['numPassedTests'] ?? 0,
      failed: report['numFailedTests'] ?? 0,
      skipped: (report['numPendingTests'] ?? 0) + (report['numTodoTests'] ?? 0),
    }
  } catch {
    return { passed: 0, failed: 1, skipped: 0 }
  }
}

try {
  ensureBrowser()
  check('types', ['npx', 'vue-tsc', '--noEmit', '-p', 'tsconfig.json'])
  check('lint', ['npm', 'run', '-s', 'lint'])
  suite('unit, reference and property tests', 'core')
  if (check('build', ['npx', 'electron-vite', 'build'])) suite('the built app in Chromium', 'e2e')
} finally {
  rmSync(scratch, { recursive: true, force: true })
}

const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : ''
console.log(`\n${count.passed} passed, ${count.failed} failed${skipped}`)
process.exit(count.failed > 0 || count.passed === 0 ? 1 : 0)

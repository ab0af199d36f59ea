/** Rows of a page that name the tests which hold them, and whether those tests pass. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** A test by its file and its title; placeholders such as `%s` stand for what a table of cases puts there. */
export interface NamedTest { file: string; title: string }

/** A row of a table whose last cell names tests as `file.test.ts`: "title". */
export interface HeldRow { section: string; what: string; tests: NamedTest[]; cell: string }

const FOLDERS: readonly [RegExp, string][] = [
  [/^(?:migrate|exchangeSchema)\.test\.ts$/, 'tests/unit/schema'],
  [/^outbox\.test\.ts$/, 'tests/unit/renderer'],
  [/^(?:tables|document)\.test\.ts$/, 'tests/unit/report'],
  [/\.e2e\.ts$/, 'tests/e2e'],
  [/\.test\.ts$/, 'tests/unit/electron'],
]

const pathOf = (file: string): string => `${FOLDERS.find(([pattern]) => pattern.test(file))?.[1] ?? '.'}/${file}`

/** The rows of all tables on a page; what a row is about is its cell before the explanation. */
export function heldRows(page: string): HeldRow[] {
  let section = ''
  return page.split('\n').flatMap((line) => {
    const heading = /^#+ (.*)/.exec(line)
    if (heading !== null) section = heading[1] ?? ''
    const cells = line.split('|').slice(1, -1).map((cell) => cell.trim())
    const cell = cells.at(-1) ?? ''
    if (cells.length < 3 || /^(?:-+|held by)$/.test(cell) || !/`[^`]+`/.test(cell)) return []
    const tests = [...cell.matchAll(/`([\w.]+\.(?:test|e2e)\.ts)`: "([^"]+)"/g)]
      .map(([, file = '', title = '']) => ({ file: pathOf(file), title }))
    return [{ section, what: cells.at(-3) ?? '', tests, cell }]
  })
}

/** The text of a page of the project. */
export const page = (path: string): string => readFileSync(join(ROOT, path), 'utf8')

const outcomes = z.object({
  testResults: z.array(z.object({
    name: z.string(), assertionResults: z.array(z.object({ title: z.string(), status: z.string() })),
  })),
})

export interface TestRun {
  /** All it printed. */
  text: string
  /** Tests that ran in all. */
  passed: number
  failed: number
  /** How many tests of this name passed and how many did not. */
  count(test: NamedTest): { passed: number; failed: number }
}

/** Runs these test files (all of them once) and reads their report. */
export function runTests(files: readonly string[]): TestRun {
  const scratch = mkdtempSync(join(tmpdir(), 'squatbench-held-'))
  try {
    const report = join(scratch, 'report.json')
    const done = spawnSync(
      'npx',
      ['vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...new Set(files)],
      { cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 28, shell: process.platform === 'win32' },
    )
    const read = outcomes.parse(JSON.parse(readFileSync(report, 'utf8')))
    const all = read.testResults.flatMap(({ name, assertionResults }) =>
      assertionResults.map((each) => ({ ...each, file: relative(ROOT, resolve(name)).replaceAll('\\', '/') })))
    const tally = (tests: typeof all) => ({
      passed: tests.filter((each) => each.status === 'passed').length,
      failed: tests.filter((each) => each.status === 'failed').length,
    })
    return {
      text: `${done.stdout}\n${done.stderr}`,
      ...tally(all),
      count: ({ file, title }) => {
        const pattern = titlePattern(title)
        return tally(all.filter((each) => each.file === file && pattern.test(each.title)))
      },
    }
  } finally {
    rmSync(scratch, { recursive: true, force: true })
  }
}

function titlePattern(title: string): RegExp {
  const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return new RegExp(`^${title.split(/%[sdifjo#]/).map(literal).join('[^]*')}$`)
}

/** Whether every test of a row ran and passed, and how many that were. */
export function heldBy(run: TestRun, tests: readonly NamedTest[]): { held: boolean; passed: number; failed: number } {
  const counts = tests.map((test) => run.count(test))
  const passed = counts.reduce((sum, each) => sum + each.passed, 0)
  const failed = counts.reduce((sum, each) => sum + each.failed, 0)
  return { held: tests.length > 0 && failed === 0 && counts.every((each) => each.passed > 0), passed, failed }
}

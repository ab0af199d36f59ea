/**
 * The figures of the project's own care: lines covered, mutants killed, nothing unused, what is packaged, what it is
 * made from, and nothing asked of any other machine. Each comes from its command's own output.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Figure } from './figure'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

interface Said { code: number | null; text: string }

/** A line of the page, and the command that gives its figure. */
interface Asked {
  what: string
  command: string[]
  figure: (said: Said) => string | null
  good: (said: Said) => boolean
}

const ended = ({ code }: Said): boolean => code === 0
const firstOf = (pattern: RegExp) => ({ text }: Said): string | null => pattern.exec(text)?.[1] ?? null

const ASKED: Asked[] = [
  {
    what: 'Lines of shared-core covered by unit, reference and property tests (floor 95 %)',
    command: ['npm', 'run', 'coverage'],
    figure: () => `${coveredLines()} %`,
    good: () => coveredLines() >= 95,
  },
  {
    what: 'Mutants of the numeric core noticed by its quick tests (files in stryker.config.json, floor 85 %)',
    command: ['npm', 'run', 'mutation'],
    figure: ({ text }) => {
      const row = /All files\s*\|\s*([\d.]+)\s*\|[^|]*\|\s*(\d+)\s*\|\s*(\d+)\s*\|\s*(\d+)\s*\|\s*(\d+)/.exec(text)
      if (row === null) return null
      const [, score, killed, late, survived, untouched] = row
      return `${score} % (${Number(killed) + Number(late)} noticed, ${Number(survived) + Number(untouched)} not)`
    },
    good: ended,
  },
  {
    what: 'Files, exports and packages that nothing uses',
    command: ['npm', 'run', 'unused'],
    figure: ({ code }) => (code === 0 ? 'none' : 'some; the command names them'),
    good: ended,
  },
  {
    what: 'The packaged program’s own files, looked through in its archive',
    command: ['npm', 'run', 'package', '--', '--check'],
    figure: firstOf(/The program's own files: (.*)\./),
    good: ended,
  },
  {
    what: 'Packages in the lock file',
    command: ['npm', 'run', 'audit'],
    figure: ({ code, text }) => {
      const known = code === 2 ? '; the registry could not be asked for known weaknesses here' : ''
      const told = /(\d+ packages in the lock file, .*)\./.exec(text)?.[1]
      return told === undefined ? null : told.replace(' packages in the lock file', '') + known
    },
    good: ({ code }) => code === 0 || code === 2,
  },
  {
    what: 'Requests off the loopback address while every screen is shown (page, browser and process watched)',
    command: ['npx', 'vitest', 'run', '--project', 'e2e', 'tests/e2e/host.e2e.ts'],
    figure: firstOf(/(\d+ screens, \d+ requests, \d+ off the loopback address)/),
    good: ended,
  },
]

function coveredLines(): number {
  const summary = JSON.parse(readFileSync(`${ROOT}coverage/coverage-summary.json`, 'utf8')) as
    { total: { lines: { pct: number } } }
  return summary.total.lines.pct
}

/** Runs each command; takes a quarter of an hour or more. */
export function qualityFigures(): Figure[] {
  return ASKED.map(({ what, command, figure, good }) => {
    console.log(`  ${command.join(' ')}`)
    const [program = '', ...rest] = command
    const done = spawnSync(program, rest, {
      cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 28, shell: process.platform === 'win32',
    })
    const said = { code: done.status, text: `${done.stdout}\n${done.stderr}` }
    const found = figure(said)
    return { what, figure: found ?? 'no figure', good: found !== null && good(said) }
  })
}

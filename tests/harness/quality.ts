/** The figures of the project's own care for its code. Each comes from its command's own output. */
import { readFileSync } from 'node:fs'
import { askedFigure, ended, ROOT } from './asked'
import type { Asked } from './asked'
import type { Figure } from './figure'
import { importsOfCore } from './imports'

const ASKED: readonly Asked[] = [
  {
    what: 'Strict types, window included',
    command: ['npm', 'run', 'types'],
    figure: ({ text }) => `${(text.match(/error TS/g) ?? []).length} errors`,
    good: ended,
  },
  {
    what: 'Lint and format, no warning allowed',
    command: ['npm', 'run', 'lint'],
    figure: ({ code, text }) => (code === 0 ? '0 problems' : /✖ (\d+ problems)/.exec(text)?.[1] ?? null),
    good: ended,
  },
  {
    what: 'Files, exports and packages that nothing uses',
    command: ['npm', 'run', 'unused'],
    figure: ({ code }) => (code === 0 ? 'none' : 'some; the command names them'),
    good: ended,
  },
  {
    what: 'Lines of shared-core covered by unit, reference and property tests (floor 95 %)',
    command: ['npm', 'run', 'coverage'],
    figure: ({ code }) => `${coveredLines()} %${code === 0 ? '' : ', but a test fails'}`,
    good: (said) => ended(said) && coveredLines() >= 95,
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
]

function coveredLines(): number {
  const summary = JSON.parse(readFileSync(`${ROOT}coverage/coverage-summary.json`, 'utf8')) as
    { total: { lines: { pct: number } } }
  return summary.total.lines.pct
}

function direction(): Figure {
  const { files, between, wrong } = importsOfCore()
  for (const each of wrong.slice(0, 10)) console.log(`  ${each}`)
  return {
    what: 'Imports of shared-core: between rooms, and those that lead up, sideways or out',
    figure: `${files} files, ${between} imports between rooms, ${wrong.length} wrong`,
    good: wrong.length === 0 && between > 50,
  }
}

/** All rows of this command; takes a quarter of an hour or more. */
export const qualityFigures = (): Figure[] => [direction(), ...ASKED.map(askedFigure)]

/**
 * `tsx tests/harness/security.ts`: runs every test that the pages on security name and counts what they hold; then
 * the audit of what the program is made from. Needs the built app and a Chromium.
 */
import { fileURLToPath } from 'node:url'
import { CONTENT_SECURITY_POLICY } from '@electron/page/headers'
import { builderConfig } from '@electron/tools/builderConfig'
import { ensureBuilt } from '../../electron/freshBuild'
import { askedFigure } from './asked'
import type { Figure } from './figure'
import { report } from './figure'
import { heldBy, heldRows, page, runTests } from './heldBy'
import type { HeldRow, TestRun } from './heldBy'

const checks = (count: number): string => `${count} ${count === 1 ? 'test passes' : 'tests pass'}`

const rowFigure = (run: TestRun) => ({ section, what, tests }: HeldRow): Figure => {
  const { held, passed, failed } = heldBy(run, tests)
  const about = section === 'Files' ? 'Files' : 'Loopback host'
  return { what: `${about}: ${what}`, figure: failed > 0 ? `${failed} of ${passed + failed} tests fail` : checks(passed), good: held }
}

function checklist(run: TestRun, rows: readonly HeldRow[]): Figure {
  const held = rows.filter((row) => heldBy(run, row.tests).held)
  const passed = rows.reduce((sum, row) => sum + heldBy(run, row.tests).passed, 0)
  const open = rows.filter((row) => !held.includes(row)).map((row) => row.what)
  return {
    what: 'Electron’s security checklist (the table in DEVELOPERS.md), items whose tests pass',
    figure: `${held.length} of ${rows.length} items, ${checks(passed)}${open.length === 0 ? '' : `; open: ${open.join(', ')}`}`,
    good: rows.length === 20 && held.length === rows.length,
  }
}

function policy(): Figure {
  const parts = CONTENT_SECURITY_POLICY.split('; ')
  const loose = parts.filter((part) => /unsafe|https?:|\*/.test(part))
  return {
    what: 'Content Security Policy: parts, and those that allow inline, eval or another origin',
    figure: `${parts.length} parts, ${loose.length} loose`,
    good: loose.length === 0 && parts.includes("default-src 'none'"),
  }
}

function fuses(): Figure {
  const set = Object.entries(builderConfig().electronFuses ?? {})
  return {
    what: 'Fuses set in the packaged binary',
    figure: set.map(([name, on]) => `${name} ${on === true ? 'on' : 'off'}`).join(', '),
    good: set.length >= 7,
  }
}

/** All rows of this command. */
export function securityFigures(): Figure[] {
  ensureBuilt(fileURLToPath(new URL('../..', import.meta.url)))
  const desktop = heldRows(page('DEVELOPERS.md')).filter((row) => row.section === 'Security')
  const others = heldRows(page('docs/security.md'))
  const run = runTests([...desktop, ...others].flatMap((row) => row.tests.map((test) => test.file)))
  const requests = /\d+ screens, \d+ requests, \d+ off the loopback address/.exec(run.text)?.[0]
  return [
    checklist(run, desktop),
    policy(),
    fuses(),
    ...others.map(rowFigure(run)),
    {
      what: 'Requests off the loopback address while every screen is shown (page, browser and process watched)',
      figure: requests ?? 'no figure',
      good: requests?.includes(', 0 off') === true,
    },
    askedFigure({
      what: 'Packages in the lock file',
      command: ['npm', 'run', 'audit'],
      figure: ({ code, text }) => {
        const known = code === 2 ? '; the registry could not be asked for known weaknesses here' : ''
        const told = /(\d+ packages) in the lock file(, .*)\./.exec(text)
        const electron = /Electron \d[^\n]*(?=\.)/.exec(text)?.[0]
        return told === null ? null : `${told[1]}${told[2]}; ${electron}${known}`
      },
      good: ({ code }) => code === 0 || code === 2,
    }),
  ]
}

if (import.meta.url === `file://${process.argv[1]}`) report('Security', securityFigures())

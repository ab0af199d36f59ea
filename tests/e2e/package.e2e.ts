/** The packages of all systems and both kinds of processors, around an empty stand-in for Electron's binary. */
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

it('hold our files, names and icons, and what each installer demands, for x64 and arm64', () => {
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'electron/tools/package.ts', '--check'], {
    cwd: ROOT, encoding: 'utf8',
  })
  const told = [...done.stdout.matchAll(/^Own files for (\w+ \w+): (\d+) files, .*, (\d+) problems\.$/gm)]
  expect([done.status, told.length, done.stderr]).toEqual([0, 6, expect.not.stringContaining('Error')])
  expect(told.map(([, of]) => of)).toEqual([
    'Linux x64', 'Linux arm64', 'macOS x64', 'macOS arm64', 'Windows x64', 'Windows arm64',
  ])
  for (const [line, , count, problems] of told) expect([line, Number(count) > 20, problems]).toEqual([line, true, '0'])
})

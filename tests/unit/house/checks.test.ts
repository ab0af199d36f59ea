/** The checks of each change hold what can't be held on a machine without a display. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const text = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8')

describe('the checks of each change', () => {
  it('try the desktop window itself, and fail where it was left out', () => {
    const job = /^ {2}desktop:\n((?: {4}.*\n)+)/m.exec(text('.github/workflows/checks.yml'))?.[1] ?? ''
    const steps = [...job.matchAll(/^ {6}- run: (.*)$/gm)].map(([, command]) => command)
    expect(steps).toEqual([
      'npm ci', 'npx install-electron', 'sudo sysctl -w kernel.apparmor_restrict_unprivileged_userns=0', 'npm run build',
      'xvfb-run -a npx vitest run --project e2e tests/e2e/electron.e2e.ts',
    ])
    expect(job).toContain('env: { SQUATBENCH_WINDOW_TEST: required }')
    expect(text('tests/e2e/electron.e2e.ts')).toContain("process.env['SQUATBENCH_WINDOW_TEST'] === 'required'")
    expect(text('node_modules/electron/package.json')).toContain('"install-electron"')
  })
})

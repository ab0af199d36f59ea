/** How the desktop window's end is told apart, with small programs in the place of Electron's binary. */
import { EventEmitter } from 'node:events'
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { runDesktop, sandboxRestriction } from '@electron/desktop/runDesktop'
import type { Ended, Run } from '@electron/desktop/runDesktop'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'squatbench-run-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

let count = 0
/** A program that does what the lines of shell say. */
function fake(lines: string): string {
  const path = join(folder, `fake-${(count += 1)}`)
  writeFileSync(path, `#!/bin/sh\n${lines}\n`)
  chmodSync(path, 0o755)
  return path
}

const run = (binary: string, options: Partial<Run> = {}): Promise<Ended> => runDesktop({
  binary, args: [folder], environment: process.env, signals: new EventEmitter(), say: () => undefined, ...options,
})

if (process.platform !== 'linux') console.log('Some tests of a window’s end are skipped: they need the shell or /proc.')

describe.skipIf(process.platform === 'win32')('a desktop window that', () => {
  it('is closed ends well', async () => {
    expect(await run(fake('exit 0'))).toEqual({ kind: 'closed' })
  })

  it.each([
    ['with 127, as where a library is missing', 'exit 127', /code 127/],
    ['by SIGTRAP, as where its sandbox can’t start', 'kill -TRAP $$', /SIGTRAP|user namespaces/],
    ['by SIGSEGV, as where there is no display', 'kill -SEGV $$', /SIGSEGV.*display/],
    ['by SIGKILL, as where memory is short', 'kill -KILL $$', /SIGKILL/],
  ])('ends at once %s never stood, and says why', async (_how, lines, why) => {
    const ended = await run(fake(lines))
    expect(ended).toMatchObject({ kind: 'stillborn', why: expect.stringMatching(why) })
  })

  it('is not there never stood, and says why', async () => {
    expect(await run(join(folder, 'missing'))).toMatchObject({ kind: 'stillborn', why: expect.stringMatching(/ENOENT/) })
  })

  it.each([['kill -SEGV $$', /SIGSEGV/], ['exit 5', /code 5/]])('ends later by “%s” died, and says how', async (lines, why) => {
    const ended = await run(fake(`sleep 0.15\n${lines}`), { stillbornMs: 50 })
    expect(ended).toMatchObject({ kind: 'died', why: expect.stringMatching(why) })
  })

  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)('ends by our own %s was asked to, even within its first moments', async (signal) => {
    const signals = new EventEmitter()
    const ready = join(folder, `ready-${signal}`)
    const ended = run(fake(`trap '' ${signal === 'SIGHUP' ? 'INT' : 'HUP'}; : > ${ready}; while :; do sleep 0.02; done`), { signals })
    await expect.poll(() => heard(ready)).not.toBeNull()
    signals.emit(signal)
    expect(await ended).toEqual({ kind: 'closed' })
    expect(signals.listenerCount(signal)).toBe(0)
  })

  it('hears a key press once, though it arrives on two ways', async () => {
    const signals = new EventEmitter()
    const [ready, heardAt] = [join(folder, 'ready-once'), join(folder, 'heard')]
    const script = `trap 'echo again >> ${heardAt}' INT; : > ${ready}; i=0; while [ $i -lt 20 ]; do sleep 0.02; i=$((i+1)); done`
    const ended = run(fake(script), { signals })
    await expect.poll(() => heard(ready)).not.toBeNull()
    signals.emit('SIGINT')
    await expect.poll(() => heard(heardAt)).toBe('again\n')
    signals.emit('SIGINT')
    await ended
    expect(heard(heardAt)).toBe('again\n')
  })

  it.runIf(process.platform === 'linux')('stands in a process group of its own, so that Ctrl-C reaches it through us only', async () => {
    const note = join(folder, 'group')
    // The fifth field of a process' stat file is its group (man 5 proc).
    await run(fake(`cut -d ' ' -f 5 /proc/$$/stat > ${note}; echo $$ >> ${note}`))
    const [group, own] = (heard(note) ?? '').split('\n').map(Number)
    expect(group).toBe(own)
  })

  it('gets no variable that would make it run as something else', async () => {
    const note = join(folder, 'environment')
    await run(fake(`env > ${note}`), {
      environment: { ...process.env, ELECTRON_RUN_AS_NODE: '1', NODE_OPTIONS: '--no-warnings', SQUATBENCH_LIBRARY: '/some/where' },
    })
    expect(heard(note)).not.toMatch(/^(?:ELECTRON_RUN_AS_NODE|NODE_OPTIONS)=/m)
    expect(heard(note)).toMatch(/^SQUATBENCH_LIBRARY=\/some\/where$/m)
  })

  it('is not ended at once by the first Ctrl-C where a signal would end it without its question', async () => {
    const signals = new EventEmitter()
    const said: string[] = []
    const ended = run(fake('sleep 0.2'), { signals, platform: 'win32', say: (line) => said.push(line) })
    signals.emit('SIGINT')
    expect(said).toEqual([expect.stringMatching(/Close the window/)])
    expect(await ended).toEqual({ kind: 'closed' })
  })
})

function heard(path: string): string | null {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return null
  }
}

describe('why a sandbox can’t start', () => {
  const system = (values: Record<string, string>) => (path: string): string => {
    const value = values[path]
    if (value === undefined) throw new Error('ENOENT')
    return value
  }

  // Names and meanings: the kernel's documentation and Ubuntu's notes on AppArmor, from memory.
  it.each([
    [{ '/proc/sys/kernel/apparmor_restrict_unprivileged_userns': '1\n' }, 'kernel.apparmor_restrict_unprivileged_userns = 1'],
    [{ '/proc/sys/kernel/unprivileged_userns_clone': '0\n' }, 'kernel.unprivileged_userns_clone = 0'],
    [{ '/proc/sys/user/max_user_namespaces': '0\n' }, 'user.max_user_namespaces = 0'],
    [{ '/proc/sys/kernel/apparmor_restrict_unprivileged_userns': '0\n', '/proc/sys/user/max_user_namespaces': '60000\n' }, null],
    [{}, null],
  ])('with %j is %s', (values, expected) => {
    expect(sandboxRestriction(system(values))).toBe(expected)
  })
})

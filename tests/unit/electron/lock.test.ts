import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { patient, systemDisk } from '@electron/services/disk'
import { LibraryLock } from '@electron/services/lock'
import type { LockOptions } from '@electron/services/lock'

let folder: string
beforeEach(async () => {
  folder = join(await mkdtemp(join(tmpdir(), 'squatbench-lock-')), 'lock')
})
afterEach(() => rm(join(folder, '..'), { recursive: true, force: true }))

const lock = (options: Partial<LockOptions> = {}) => new LibraryLock(systemDisk, folder, options)
const wait = (ms: number) => new Promise((done) => setTimeout(done, ms))

/** Puts a holder there as another process would have left it. */
async function leaveHeld(number: number, content: string): Promise<void> {
  await mkdir(folder, { recursive: true })
  await writeFile(join(folder, `${number}.held`), content)
}

/** What Windows says of a file that a scanner holds. */
const held = () => Object.assign(new Error('EPERM: operation not permitted, rename'), { code: 'EPERM' })

describe('the lock of a library', () => {
  it('lets one in at a time, across several locks of one folder', async () => {
    let inside = 0
    let most = 0
    await Promise.all(Array.from({ length: 6 }, async () => {
      const own = lock({ pollMs: 1 })
      for (let turn = 0; turn < 5; turn += 1) {
        await own.run(async () => {
          inside += 1
          most = Math.max(most, inside)
          await wait(1)
          inside -= 1
        })
      }
    }))
    expect(most).toBe(1)
    expect((await readdir(folder)).length).toBeLessThanOrEqual(2)
  })

  it('gives back what the work gave, goes on after a failure, and keeps the order', async () => {
    const own = lock()
    const order: number[] = []
    const failed = own.run(() => Promise.reject(new Error('work')))
    const done = own.run(() => {
      order.push(1)
      return Promise.resolve('done')
    })
    const last = own.run(() => Promise.resolve(order.push(2)))
    await expect(failed).rejects.toThrow('work')
    expect(await done).toBe('done')
    await last
    expect(order).toEqual([1, 2])
  })

  it('passes over a holder whose process is gone, at once', async () => {
    const child = spawn(process.execPath, ['-e', ''])
    await once(child, 'exit')
    await leaveHeld(7, JSON.stringify({ pid: child.pid, host: hostname(), token: 'x' }))
    const startedMs = performance.now()
    await lock({ patienceMs: 60_000 }).run(() => Promise.resolve())
    expect(performance.now() - startedMs).toBeLessThan(5_000)
    expect(await readdir(folder)).toContain('8.free')
  })

  it('passes over what this process could not give back, at once', async () => {
    const disk = { ...systemDisk, rename: () => Promise.reject(held()) }
    const stuck = new LibraryLock(disk, folder, { patienceMs: 60_000 })
    const startedMs = performance.now()
    await stuck.run(() => Promise.resolve())
    await stuck.run(() => Promise.resolve())
    expect(performance.now() - startedMs).toBeLessThan(5_000)
    expect(await readdir(folder)).toContain('2.held')
  })

  it('does not pass over a work of this process that goes on', async () => {
    let done = false
    const slow = lock().run(async () => {
      await wait(60)
      done = true
    })
    await expect.poll(() => readdir(folder).catch(() => [])).toContain('1.held')
    await lock({ pollMs: 1 }).run(() => Promise.resolve(expect(done).toBe(true)))
    await slow
  })

  it('is given back though a scanner holds its file for a moment', async () => {
    let refused = 2
    const disk = patient({
      ...systemDisk,
      rename: (from, to) => ((refused -= 1) < 0 ? systemDisk.rename(from, to) : Promise.reject(held())),
    }, [1, 1])
    await new LibraryLock(disk, folder).run(() => Promise.resolve())
    expect(await readdir(folder)).toEqual(['1.free'])
  })

  it.each([
    ['alive but standing still', JSON.stringify({ pid: process.ppid, host: hostname(), token: 'x' })],
    ['on another machine', JSON.stringify({ pid: 1, host: 'elsewhere', token: 'x' })],
    ['that never told who it is', ''],
  ])('waits for a holder %s, then passes it over', async (_case, content) => {
    await leaveHeld(1, content)
    const startedMs = performance.now()
    await lock({ patienceMs: 80 }).run(() => Promise.resolve())
    expect(performance.now() - startedMs).toBeGreaterThanOrEqual(75)
  })

  it('tells a holder that was passed over, before it writes', async () => {
    const slow = lock()
    const outcome = slow.run(async (stillHeld) => {
      await lock({ patienceMs: 20 }).run(() => Promise.resolve())
      await stillHeld()
    })
    await expect(outcome).rejects.toThrow('another one took over')
  })

  it('sees that it is late where numbers went on meanwhile', async () => {
    await leaveHeld(3, '')
    await writeFile(join(folder, '4.free'), '')
    await lock({ patienceMs: 60_000 }).run(() => Promise.resolve())
    expect((await readdir(folder)).sort()).toEqual(['4.free', '5.free'])
  })
})

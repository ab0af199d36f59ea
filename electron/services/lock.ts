/**
 * One writer at a time on a library, across windows and processes.
 *
 * Each holder takes the next number: it makes `<n>.held`, which only one can. Releasing renames it
 * to `<n>.free`. The holder is who made the highest number. A number is never used twice, so taking
 * over after a crash needs no deletion that could hit a successor, and no clock is compared: a
 * holder whose process is gone is passed over at once, one that stands still only after a long wait
 * measured here. The two highest numbers always stay, so that a late comer sees that it is late.
 */
import { randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { z } from 'zod'
import { readJson } from '@core/schema'
import { makeFolder, namesIn, readText } from './disk'
import type { Disk } from './disk'
import { ServiceFailure, systemCode } from './failure'

/** Throws where the lock was lost meanwhile (the process stood still for long and was passed over). */
export type StillHeld = () => Promise<void>

export interface LockOptions {
  /** A holder whose process lives is passed over after standing still so long. */
  patienceMs: number
  /** How often a waiting process looks. */
  pollMs: number
}

const DEFAULTS: LockOptions = { patienceMs: 10_000, pollMs: 10 }

const holder = z.object({ pid: z.number().int().positive(), host: z.string(), token: z.string() })

/** Tokens of the locks that this process holds now, whichever window of it took them. */
const heldHere = new Set<string>()

/** Numbers have so many digits at most, so that each is exact. */
const LAST_NUMBER = 999_999_999_999_999

interface Entry { number: number; state: 'held' | 'free'; file: string }

export class LibraryLock {
  private readonly disk: Disk
  private readonly folder: string
  private readonly options: LockOptions
  private last: Promise<unknown> = Promise.resolve()

  constructor(disk: Disk, folder: string, options: Partial<LockOptions> = {}) {
    this.disk = disk
    this.folder = folder
    this.options = { ...DEFAULTS, ...options }
  }

  /** Runs the work while no other window writes; works of this process run in the order of their call. */
  run<T>(work: (stillHeld: StillHeld) => Promise<T>): Promise<T> {
    const turn = this.last.then(async () => {
      const { number, token } = await this.acquire()
      try {
        return await work(() => this.ensureHeld(number))
      } finally {
        heldHere.delete(token)
        await this.release(number)
      }
    })
    this.last = turn.catch(() => undefined)
    return turn
  }

  private async acquire(): Promise<{ number: number; token: string }> {
    await makeFolder(this.disk, this.folder)
    let seen = ''
    let sinceMs = performance.now()
    for (;;) {
      const top = highest(await this.entries())
      if (top?.state === 'held') {
        const text = `${top.number} ${await readText(this.disk, join(this.folder, top.file)).catch(() => null) ?? ''}`
        if (text !== seen) {
          seen = text
          sinceMs = performance.now()
        }
        const waitedMs = performance.now() - sinceMs
        if (!isAbandoned(text.slice(text.indexOf(' ') + 1)) && waitedMs < this.options.patienceMs) {
          await new Promise((done) => setTimeout(done, this.options.pollMs))
          continue
        }
      }
      const number = await this.numberAfter(top)
      const token = await this.take(number)
      if (token !== null) return { number, token }
    }
  }

  /** The next number; after the last one there is, which nobody reaches by counting, it begins again. */
  private async numberAfter(top: Entry | null): Promise<number> {
    if (top === null) return 1
    if (top.number < LAST_NUMBER) return top.number + 1
    for (const entry of await this.entries()) if (entry.number === LAST_NUMBER) await this.forget(entry.file)
    return 1
  }

  /** Tries to become the holder with this number; gives its token, or null where another was first. */
  private async take(number: number): Promise<string | null> {
    const token = randomUUID()
    heldHere.add(token)
    try {
      if (await this.claim(number, token)) return token
    } catch (error) {
      heldHere.delete(token)
      throw error
    }
    heldHere.delete(token)
    return null
  }

  private async claim(number: number, token: string): Promise<boolean> {
    const own = `${number}.held`
    try {
      const file = await this.disk.open(join(this.folder, own), 'wx')
      try {
        await file.writeFile(JSON.stringify({ pid: process.pid, host: hostname(), token }))
      } finally {
        await file.close()
      }
    } catch (error) {
      if (systemCode(error) === 'EEXIST') return false
      await this.forget(own)
      throw error
    }
    const entries = await this.entries()
    if (entries.some((entry) => entry.number >= number && entry.file !== own)) {
      await this.forget(own)
      return false
    }
    for (const entry of entries) if (entry.number <= number - 2) await this.forget(entry.file)
    return true
  }

  private async ensureHeld(number: number): Promise<void> {
    const top = highest(await this.entries())
    if (top?.number === number && top.state === 'held') return
    throw new ServiceFailure(
      'failed', 'This window stood still so long that another one took over the library. Try again.',
    )
  }

  /** A lock that cannot be given back is passed over by the next one; the work itself is done. */
  private async release(number: number): Promise<void> {
    await this.disk.rename(join(this.folder, `${number}.held`), join(this.folder, `${number}.free`)).catch(() => undefined)
  }

  private async forget(file: string): Promise<void> {
    await this.disk.unlink(join(this.folder, file)).catch(() => undefined)
  }

  private async entries(): Promise<Entry[]> {
    return (await namesIn(this.disk, this.folder)).flatMap((file) => {
      const match = /^(\d{1,15})\.(held|free)$/.exec(file)
      return match === null ? [] : [{ number: Number(match[1]), state: match[2] as Entry['state'], file }]
    })
  }
}

function highest(entries: Entry[]): Entry | null {
  return entries.reduce<Entry | null>((top, entry) => {
    if (top === null || entry.number > top.number) return entry
    return entry.number === top.number && entry.state === 'free' ? entry : top
  }, null)
}

/** True where the holder ran on this machine and is gone: its process, or its work in this process. */
function isAbandoned(text: string): boolean {
  const json = readJson(text)
  const parsed = holder.safeParse(json.ok ? json.value : null)
  if (!parsed.success || parsed.data.host !== hostname()) return false
  const { pid, token } = parsed.data
  if (pid === process.pid) return !heldHere.has(token)
  try {
    process.kill(pid, 0)
    return false
  } catch (error) {
    return systemCode(error) === 'ESRCH'
  }
}

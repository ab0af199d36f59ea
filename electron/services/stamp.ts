/** The stamp of a file or folder: tells without reading whether it changed since it was read. */
import type { Disk } from './disk'
import { isMissing } from './failure'

/** A change so shortly after the last one might leave the stamp as it is: such a stamp is not trusted. */
const SETTLED_MS = 2_000

/** Moments that a date can be written for in four digits of a year, ms. */
const LAST_MS = Date.UTC(9999, 11, 31)

export interface Stamp {
  text: string
  changedMs: number
  /** False where the last change is so young that another may hide behind the same stamp. */
  settled: boolean
}

/** Stamp of a path; a missing one has a stamp, too. Every write of ours makes a new file, so a new stamp. */
export async function stampOf(disk: Disk, path: string): Promise<Stamp> {
  try {
    const { mtimeMs, size, ino } = await disk.stat(path)
    const ageMs = Date.now() - mtimeMs
    return {
      text: `${mtimeMs}:${size}:${ino}`,
      changedMs: Math.min(Math.max(0, mtimeMs), LAST_MS),
      settled: Math.abs(ageMs) > SETTLED_MS,
    }
  } catch (error) {
    if (isMissing(error)) return { text: '-', changedMs: 0, settled: true }
    throw error
  }
}

/**
 * The list of all chassis, kept so that it need not be read from every file each time. It is a
 * cache and nothing else: each entry holds the marks of the folder it was read from, an entry whose
 * marks differ is read anew, and a lost or damaged index is built again from the files.
 */
import { basename } from 'node:path'
import { z } from 'zod'
import { readJson } from '@core/schema'
import { summary, unreadable } from '@core/services'
import type { ChassisSummary, Unreadable } from '@core/services'
import { readChassis, withSpare } from './documents'
import { namesIn, readText, writeSpare } from './disk'
import type { Disk } from './disk'
import { idOfSessionFile, idOfWord } from './layout'
import type { Layout } from './layout'
import { stampOf } from './stamp'

const INDEX_VERSION = 1

/** `marks` change whenever a file of the chassis is written, added or moved away. */
const entry = z.strictObject({
  marks: z.string(),
  summary: summary.nullable(),
  unreadable: z.array(unreadable),
})
const index = z.strictObject({ indexVersion: z.literal(INDEX_VERSION), entries: z.record(z.string(), entry) })
type Entry = z.infer<typeof entry>

/** Only the name is needed of a session here; the whole file is checked when the chassis is opened. */
const sessionName = z.object({ name: z.string() })

/** How many chassis are looked at together: enough to keep the disk busy, few enough for its limits. */
const TOGETHER = 32

interface Marks { text: string; settled: boolean; newestMs: number }

export class LibraryIndex {
  private readonly disk: Disk
  private readonly at: Layout
  private known: Map<string, Entry> | null = null

  constructor(disk: Disk, at: Layout) {
    this.disk = disk
    this.at = at
  }

  /** Every chassis in the order of its name, and what could not be read. */
  async list(): Promise<{ chassis: ChassisSummary[]; unreadable: Unreadable[] }> {
    const before = this.known ?? await this.load()
    const after = new Map<string, Entry>()
    let changed = false
    const words = (await namesIn(this.disk, this.at.chassisRoot)).filter((word) => !word.startsWith('.'))
    for (let start = 0; start < words.length; start += TOGETHER) {
      const some = words.slice(start, start + TOGETHER)
      const looked = await Promise.all(some.map((word) => this.look(word, before.get(word))))
      looked.forEach((found, offset) => {
        const word = some[offset] as string
        if (found !== before.get(word)) changed = true
        if (found !== null) after.set(word, found)
      })
    }
    this.known = after
    if (changed || after.size !== before.size) await this.keep(after)
    const entries = [...after.values()]
    return {
      chassis: entries.flatMap((each) => each.summary ?? [])
        .sort((a, b) => a.name.localeCompare(b.name, 'en') || a.id.localeCompare(b.id)),
      unreadable: entries.flatMap((each) => each.unreadable),
    }
  }

  private async look(word: string, known: Entry | undefined): Promise<Entry | null> {
    const chassisId = idOfWord(word)
    if (chassisId === null) return strange(word)
    const marks = await this.marks(chassisId)
    if (known !== undefined && marks.settled && known.marks === marks.text) return known
    return this.read(chassisId, marks)
  }

  /** Marks of one chassis: its own file and the list of its sessions (each write makes a new name there). */
  private async marks(chassisId: string): Promise<Marks> {
    const [file, folder] = await Promise.all([
      stampOf(this.disk, this.at.chassisFile(chassisId)), stampOf(this.disk, this.at.sessionsFolder(chassisId)),
    ])
    return {
      text: `${file.text} ${folder.text}`,
      settled: file.settled && folder.settled,
      newestMs: Math.max(file.changedMs, folder.changedMs),
    }
  }

  private async read(chassisId: string, marks: Marks): Promise<Entry | null> {
    const found = await readChassis(this.disk, this.at.chassisFile(chassisId), chassisId)
    const place = `chassis/${basename(this.at.chassisFolder(chassisId))}`
    const files = (await namesIn(this.disk, this.at.sessionsFolder(chassisId)))
      .filter((file) => idOfSessionFile(file) !== null)
    if (found.kind === 'missing') {
      if (files.length === 0) return null
      const why = `chassis.json is missing beside ${files.length} sessions`
      return { marks: marks.text, summary: null, unreadable: [{ file: place, why }] }
    }
    if (found.kind !== 'opened') {
      const unreadable = await withSpare(this.disk, this.at, { file: `${place}/chassis.json`, why: found.why }, {
        chassisId, sessionId: null,
      })
      return { marks: marks.text, summary: null, unreadable: [unreadable] }
    }
    const names: string[] = []
    for (const file of files) {
      const name = await this.nameOfSession(chassisId, idOfSessionFile(file) as string)
      if (name !== null) names.push(name)
    }
    return {
      marks: marks.text,
      summary: {
        id: chassisId,
        name: found.document.name,
        changedAt: new Date(marks.newestMs).toISOString(),
        sessionCount: files.length,
        sessionNames: names,
      },
      unreadable: [],
    }
  }

  private async nameOfSession(chassisId: string, sessionId: string): Promise<string | null> {
    const text = await readText(this.disk, this.at.sessionFile(chassisId, sessionId)).catch(() => null)
    const json = readJson(text ?? '')
    const parsed = sessionName.safeParse(json.ok ? json.value : null)
    return parsed.success ? parsed.data.name : null
  }

  private async load(): Promise<Map<string, Entry>> {
    const text = await readText(this.disk, this.at.index).catch(() => null)
    const json = readJson(text ?? '')
    const parsed = index.safeParse(json.ok ? json.value : null)
    return new Map(parsed.success ? Object.entries(parsed.data.entries) : [])
  }

  /** It can be built again. */
  private async keep(entries: Map<string, Entry>): Promise<void> {
    const text = JSON.stringify({ indexVersion: INDEX_VERSION, entries: Object.fromEntries(entries) })
    await writeSpare(this.disk, this.at.index, text)
  }
}

const strange = (word: string): Entry =>
  ({ marks: '', summary: null, unreadable: [{ file: `chassis/${word}`, why: 'its name is not an identifier' }] })

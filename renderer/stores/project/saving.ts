/**
 * From the window to the disk: one document after the other. A save that fails is kept and tried again; one that
 * meets another window's writing is merged with it; until then the browser keeps it too, beyond the window's end.
 */
import type { Chassis, Session } from '@core/schema'
import type { ServiceError } from '@core/services'
import { ref, shallowRef } from 'vue'
import { call, libraryId } from '../../client'
import { frameDrawn } from '../hands'
import { now } from '../ids'
import { mergeDocuments } from '../merge'
import { Outbox, takeIn, type Kept } from '../outbox'
import { CHASSIS_KEY, documentKey, isSession, keyOfSession, type Document, type OpenDocuments } from './documents'

export type SaveState = 'saved' | 'saving' | 'waiting'

/** What was typed before this window was opened, could not be written down then, and is in the car now. */
export interface Recovered { readonly name: string; readonly count: number }

/** What the browser keeps and nothing in the library takes any more: its test or its car was taken out. */
export interface Stranded { readonly name: string; readonly kept: Kept }

const RETRY_MS = [1000, 2000, 4000, 8000, 15_000]

/** @param tell says that another window's writing was taken in, and of what */
export function savingOf(
  { chassis, sessions, find, put }: OpenDocuments, tell: (key: 'merged' | 'refreshed', what: string) => void,
) {
  const state = ref<SaveState>('saved')
  const error = ref<ServiceError | null>(null)
  /** Everything that is not written down yet is kept by the browser as well. */
  const keptByBrowser = ref(true)
  const recovered = shallowRef<readonly Recovered[]>([])
  const stranded = shallowRef<readonly Stranded[]>([])
  /** Documents as they stand on disk, to merge from; these and the waiting ones by `documentKey`. */
  const written = new Map<string, Document>()
  const waiting = new Set<string>()
  const outbox = new Outbox()
  /** Resolves once the library is known, and with it what the browser keeps of it. */
  let known: Promise<void> | null = null
  let writing = false
  let tries = 0
  let wake: (() => void) | null = null

  async function knowLibrary(): Promise<void> {
    known ??= libraryId().then((id) => {
      outbox.libraryId = id
      if (id === null) known = null
      else keepAgain()
    })
    // Nobody waits for the answer where the browser keeps nothing.
    if (outbox.holdsAny()) await known
  }

  /** True where another car may be opened: what waits of this one is kept by the browser. */
  async function ready(): Promise<boolean> {
    await settled()
    await knowLibrary()
    return waiting.size === 0 || keptByBrowser.value
  }

  /** Begins anew with documents as they stand on disk, and with what the browser keeps of them. */
  function begin(open: Chassis, its: readonly Session[]): void {
    written.clear()
    waiting.clear()
    wake?.()
    for (const each of [open, ...its]) written.set(documentKey(each), each)
    state.value = 'saved'
    keptByBrowser.value = true
    takeInKept(open)
  }

  /** Takes what an earlier window could not write of this car into what is open, on the usual way to the disk. */
  function takeInKept({ id, name }: Chassis): void {
    let count = 0
    for (const kept of outbox.entriesOf(id)) {
      const taken = takeIn(kept.entry, find(keyOfSession(kept.entry.sessionId)), { at: now(), why: 'typed before' })
      if (taken.kind === 'there') outbox.forget(kept)
      if (taken.kind === 'unfit' && !outbox.isOwn(kept)) strand(name, kept)
      if (taken.kind !== 'joined') continue
      put(taken.document)
      keep(documentKey(taken.document))
      if (keptByBrowser.value && !outbox.isOwn(kept)) outbox.forget(kept)
      count += taken.count
    }
    if (count > 0) recovered.value = [...recovered.value, { name, count }]
  }

  function strand(name: string, kept: Kept): void {
    stranded.value = [...stranded.value.filter((each) => each.kept.key !== kept.key), { name, kept }]
  }

  /** Tells what is kept of a car that is not in the library any more. */
  function strandAll(chassisId: string): void {
    for (const kept of outbox.entriesOf(chassisId)) strand(chassisId, kept)
  }

  /** Forgets something kept that nothing takes any more: the builder has said so. */
  function letGo({ kept }: Stranded): void {
    outbox.forget(kept)
    stranded.value = stranded.value.filter((each) => each.kept.key !== kept.key)
  }

  /** Keeps the state of a document by the browser, until it is on the disk. */
  function keepByBrowser(key: string): void {
    const document = find(key)
    if (document && !outbox.put(document, written.get(key))) keptByBrowser.value = false
  }

  function keepAgain(): void {
    keptByBrowser.value = true
    for (const key of waiting) keepByBrowser(key)
  }

  /** Writes a document down, now or as soon as it can be. */
  function keep(key: string): void {
    waiting.add(key)
    keepByBrowser(key)
    if (!writing) void writeDown()
  }

  async function writeDown(): Promise<void> {
    writing = true
    state.value = 'saving'
    while (waiting.size > 0) {
      const key = waiting.values().next().value as string
      // To write a long session out takes a while: what was typed is seen first. The browser keeps it already.
      await frameDrawn()
      waiting.delete(key)
      const document = find(key)
      if (!document || (await save(document))) { tries = 0; continue }
      waiting.add(key)
      state.value = 'waiting'
      await pause(RETRY_MS[Math.min(tries, RETRY_MS.length - 1)] as number)
      tries += 1
    }
    // In one go with the look that found none waiting: what is kept a moment later begins anew.
    state.value = 'saved'
    writing = false
  }

  const pause = (ms: number): Promise<void> => new Promise((resolve) => { wake = resolve; setTimeout(resolve, ms) })

  /** One write. False where it must be tried again. */
  async function save(document: Document): Promise<boolean> {
    const key = documentKey(document)
    const baseRevision = written.get(key)?.revision ?? 0
    const answer = isSession(document)
      ? await call('library.saveSession', { session: document, baseRevision })
      : await call('library.saveChassis', { chassis: document, baseRevision })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    if (answer.value.kind === 'saved') {
      const { revision } = answer.value
      written.set(key, { ...document, revision })
      const latest = find(key)
      if (latest) put({ ...latest, revision })
      keepByBrowser(key)
      if (waiting.size === 0) keptByBrowser.value = true
      return true
    }
    join(answer.value.current)
    tell('merged', document.name)
    waiting.add(key)
    keepByBrowser(key)
    return true
  }

  /** Takes what another window wrote into what stands here. */
  function join(theirs: Document): void {
    const key = documentKey(theirs)
    const base = written.get(key)
    const mine = find(key)
    written.set(key, theirs)
    put(mine ? mergeDocuments(base ?? theirs, mine, theirs, { at: now(), why: 'another window' }) : theirs)
  }

  /** Takes a session out of the car and the library. False where that failed. */
  async function takeOut(sessionId: string): Promise<boolean> {
    await settled()
    if (!chassis.value) return false
    const key = keyOfSession(sessionId)
    if (written.has(key)) {
      const answer = await call('library.removeSession', { chassisId: chassis.value.id, sessionId })
      if (!answer.ok) { error.value = answer.error; return false }
    }
    const gone = find(key)
    if (gone) outbox.drop(gone)
    written.delete(key)
    waiting.delete(key)
    sessions.value = sessions.value.filter((each) => each.id !== sessionId)
    return true
  }

  /** Looks whether another window wrote to this car, and takes it in. Called when the window is looked at again. */
  async function refresh(): Promise<void> {
    const open = chassis.value
    if (!open || writing) return
    const revisions = await call('library.revisions', { chassisId: open.id })
    if (!revisions.ok) return
    const { chassis: revision, sessions: others } = revisions.value
    const newer = revision !== (written.get(CHASSIS_KEY)?.revision ?? 0)
      || Object.entries(others).some(([id, each]) => each !== written.get(keyOfSession(id))?.revision)
    if (!newer) return
    const answer = await call('library.open', { chassisId: open.id })
    if (!answer.ok || chassis.value?.id !== open.id) return
    for (const each of [answer.value.chassis, ...answer.value.sessions]) {
      if (each.revision !== written.get(documentKey(each))?.revision) join(each)
    }
    tell('refreshed', open.name)
  }

  /** Resolves once everything entered is on disk, or failed and waits. */
  async function settled(): Promise<void> {
    while (writing && state.value === 'saving') await new Promise((resolve) => { setTimeout(resolve, 5) })
  }

  /** Cars of which the browser keeps something. */
  async function chassisKept(): Promise<readonly string[]> {
    await knowLibrary()
    return outbox.chassisIds()
  }

  return {
    state, error, keptByBrowser, recovered, stranded, strandAll, letGo,
    ready, begin, keep, takeOut, chassisKept, refresh, settled,
    /** Tries a waiting save again at once. */
    tryNow: () => wake?.(),
  }
}

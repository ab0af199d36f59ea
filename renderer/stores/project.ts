/**
 * The open chassis with its sessions. Every change is a new document, written down at once; the last
 * ones can be undone. A save that fails is kept and tried again; a save that meets another window's
 * writing is merged with it; until then the browser keeps it too, so that it outlives the window.
 * Nothing entered is ever dropped.
 */
import { EXCHANGE_FORMAT, SCHEMA_VERSION, type Chassis, type Exchange, type Session } from '@core/schema'
import type { ServiceError, Unreadable } from '@core/services'
import { produce, setAutoFreeze } from 'immer'
import { defineStore } from 'pinia'
import { computed, ref, shallowRef } from 'vue'
import { call, libraryId } from '../client'
import { newId, now } from './ids'
import { mergeDocuments } from './merge'
import { Outbox, takeIn } from './outbox'
import { plain } from './plain'

type Document = Chassis | Session
/** A step that can be taken back: a document changed, a session made, or one taken out. */
type Change =
  | { readonly kind: 'edit'; readonly before: Document; readonly after: Document; readonly label: string }
  | { readonly kind: 'add' | 'remove'; readonly session: Session; readonly label: string }
export type SaveState = 'saved' | 'saving' | 'waiting'
/** What the window tells the builder about something that happened by itself or by a key. */
export interface Said { readonly key: 'merged' | 'undone' | 'redone' | 'refreshed'; readonly what: string; readonly count: number }

/** What was typed before this window was opened, could not be written down then, and is in the car now. */
export interface Recovered { readonly name: string; readonly count: number }

const UNDO_DEPTH = 200
const RETRY_MS = [1000, 2000, 4000, 8000, 15_000]
const isSession = (document: Document): document is Session => 'kind' in document

/** A document's place in the open car. A session may have the id of its chassis, so its id alone says too little. */
const CHASSIS = 'chassis'
const placeOfId = (sessionId: string | null): string => (sessionId === null ? CHASSIS : `session ${sessionId}`)
const placeOf = (document: Document): string => placeOfId(isSession(document) ? document.id : null)

// Documents are shared between the undo steps and never changed in place; freezing them costs more than it finds.
setAutoFreeze(false)

export const useProject = defineStore('project', () => {
  const chassis = shallowRef<Chassis | null>(null)
  const sessions = shallowRef<readonly Session[]>([])
  const unreadable = ref<Unreadable[]>([])
  const error = ref<ServiceError | null>(null)
  const saveState = ref<SaveState>('saved')
  const said = shallowRef<Said | null>(null)
  const undoable = shallowRef<readonly Change[]>([])
  const redoable = shallowRef<readonly Change[]>([])

  /** Documents as they stand on disk, to merge from; these and the waiting ones by `placeOf`. */
  const written = new Map<string, Document>()
  const waiting = new Set<string>()
  const outbox = new Outbox()
  /** Everything that is not written down yet is kept by the browser as well. */
  const keptByBrowser = ref(true)
  const recovered = shallowRef<readonly Recovered[]>([])
  /** Resolves once the library is known, and with it what the browser keeps of it. */
  let known: Promise<void> | null = null
  let writing: Promise<void> | null = null
  let tries = 0
  let wake: (() => void) | null = null

  const ofKind = <K extends Session['kind']>(kind: K) => computed(() =>
    sessions.value.filter((each): each is Extract<Session, { kind: K }> => each.kind === kind))
  const squats = ofKind('squat')
  const airflows = ofKind('airflow')
  const tracks = ofKind('track')
  const exchange = computed<Exchange | null>(() => chassis.value && {
    format: EXCHANGE_FORMAT, schemaVersion: SCHEMA_VERSION, chassis: chassis.value, sessions: [...sessions.value],
  })

  const tell = (key: Said['key'], what = ''): void => { said.value = { key, what, count: (said.value?.count ?? 0) + 1 } }

  /** Opens a chassis unless it is open already. False where it can't be had; `error` says why. */
  async function open(chassisId: string): Promise<boolean> {
    if (chassis.value?.id === chassisId) return true
    await settled()
    await knowLibrary()
    if (waiting.size > 0 && !keptByBrowser.value) return false
    const answer = await call('library.open', { chassisId })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    written.clear()
    waiting.clear()
    wake?.()
    undoable.value = []
    redoable.value = []
    chassis.value = answer.value.chassis
    sessions.value = answer.value.sessions
    unreadable.value = answer.value.unreadable
    for (const each of [answer.value.chassis, ...answer.value.sessions]) written.set(placeOf(each), each)
    saveState.value = 'saved'
    keptByBrowser.value = true
    takeInKept(chassisId)
    return true
  }

  async function knowLibrary(): Promise<void> {
    known ??= libraryId().then((id) => {
      outbox.libraryId = id
      if (id === null) known = null
      else keepAgain()
    })
    // Nobody waits for the answer where the browser keeps nothing.
    if (outbox.holdsAny()) await known
  }

  /** Takes what the browser kept of every car into the library. Called once, as the window opens. */
  async function recover(): Promise<void> {
    await knowLibrary()
    for (const chassisId of outbox.chassisIds()) {
      if (await open(chassisId)) await settled()
      else if (error.value?.code === 'notFound') error.value = null
    }
  }

  /** Takes what an earlier window could not write of this car into what is open, on the usual way to the disk. */
  function takeInKept(chassisId: string): void {
    let count = 0
    for (const kept of outbox.entriesOf(chassisId)) {
      const taken = takeIn(kept.entry, find(placeOfId(kept.entry.sessionId)), { at: now(), why: 'typed before' })
      if (taken.kind === 'there') outbox.forget(kept)
      if (taken.kind !== 'joined') continue
      put(taken.document)
      keep(placeOf(taken.document))
      if (keptByBrowser.value && !outbox.isOwn(kept)) outbox.forget(kept)
      count += taken.count
    }
    if (count > 0) recovered.value = [...recovered.value, { name: chassis.value?.name ?? '', count }]
  }

  const forgetRecovered = (): void => { recovered.value = [] }

  /** Keeps the state of a document by the browser, until it is on the disk. */
  function keepByBrowser(place: string): void {
    const document = find(place)
    if (document && !outbox.put(document, written.get(place))) keptByBrowser.value = false
  }

  function keepAgain(): void {
    keptByBrowser.value = true
    for (const place of waiting) keepByBrowser(place)
  }

  const find = (place: string): Document | undefined =>
    (place === CHASSIS ? chassis.value ?? undefined : sessions.value.find((each) => placeOf(each) === place))

  function put(document: Document): void {
    if (!isSession(document)) { chassis.value = document; return }
    const known = sessions.value.some((each) => each.id === document.id)
    sessions.value = known
      ? sessions.value.map((each) => (each.id === document.id ? document : each))
      : [...sessions.value, document]
  }

  function remember(change: Change): void {
    undoable.value = [...undoable.value.slice(-UNDO_DEPTH + 1), change]
    redoable.value = []
  }

  function step(before: Document, edited: Document, label: string): void {
    if (edited === before) return
    const after = plain(edited, before)
    remember({ kind: 'edit', before, after, label })
    put(after)
    keep(placeOf(after))
  }

  /** Changes the chassis: `edit` gets a draft to change. */
  function changeChassis(label: string, edit: (draft: Chassis) => void): void {
    const before = chassis.value
    if (before) step(before, produce(before, (draft) => { edit(draft as Chassis) }), label)
  }

  /** Changes a session of a kind: `edit` gets a draft to change. */
  function changeSession<K extends Session['kind']>(
    kind: K, id: string, label: string, edit: (draft: Extract<Session, { kind: K }>) => void,
  ): void {
    const before = sessions.value.find((each) => each.id === id)
    if (!before || before.kind !== kind) return
    step(before, produce(before, (draft) => { edit(draft as Extract<Session, { kind: K }>) }), label)
  }

  /** Adds a new session to the chassis and writes it down. */
  function addSession(made: Session): void {
    const session = plain(made)
    remember({ kind: 'add', session, label: session.name })
    put(session)
    keep(placeOf(session))
  }

  /** Takes a session out of the chassis; its file goes to the library's folder of removed things. */
  async function removeSession(sessionId: string): Promise<void> {
    const session = sessions.value.find((each) => each.id === sessionId)
    if (session && (await takeOut(sessionId))) remember({ kind: 'remove', session, label: session.name })
  }

  async function takeOut(sessionId: string): Promise<boolean> {
    await settled()
    if (!chassis.value) return false
    if (written.has(placeOfId(sessionId))) {
      const answer = await call('library.removeSession', { chassisId: chassis.value.id, sessionId })
      if (!answer.ok) { error.value = answer.error; return false }
    }
    const gone = find(placeOfId(sessionId))
    if (gone) outbox.drop(gone)
    written.delete(placeOfId(sessionId))
    waiting.delete(placeOfId(sessionId))
    sessions.value = sessions.value.filter((each) => each.id !== sessionId)
    return true
  }

  /** Puts a session that was taken out back, as a new file. */
  function putBack(session: Session): void {
    put({ ...session, revision: 0 })
    keep(placeOf(session))
  }

  /** Moves one document from one of its states to another, under whatever was changed since. */
  function shift(from: Document, to: Document): void {
    const current = find(placeOf(to))
    if (!current) return
    put(mergeDocuments(from, to, current, { at: now(), why: 'undo' }))
    keep(placeOf(to))
  }

  async function undo(): Promise<void> {
    const change = undoable.value.at(-1)
    if (!change) return
    undoable.value = undoable.value.slice(0, -1)
    redoable.value = [...redoable.value, change]
    if (change.kind === 'edit') shift(change.after, change.before)
    else if (change.kind === 'add') await takeOut(change.session.id)
    else putBack(change.session)
    tell('undone', change.label)
  }

  async function redo(): Promise<void> {
    const change = redoable.value.at(-1)
    if (!change) return
    redoable.value = redoable.value.slice(0, -1)
    undoable.value = [...undoable.value, change]
    if (change.kind === 'edit') shift(change.before, change.after)
    else if (change.kind === 'add') putBack(change.session)
    else await takeOut(change.session.id)
    tell('redone', change.label)
  }

  function keep(place: string): void {
    waiting.add(place)
    keepByBrowser(place)
    writing ??= writeDown().finally(() => { writing = null })
  }

  async function writeDown(): Promise<void> {
    saveState.value = 'saving'
    while (waiting.size > 0) {
      const place = waiting.values().next().value as string
      waiting.delete(place)
      const document = find(place)
      if (!document || (await save(document))) { tries = 0; continue }
      waiting.add(place)
      saveState.value = 'waiting'
      await pause(RETRY_MS[Math.min(tries, RETRY_MS.length - 1)] as number)
      tries += 1
    }
    saveState.value = 'saved'
  }

  const pause = (ms: number): Promise<void> => new Promise((resolve) => { wake = resolve; setTimeout(resolve, ms) })

  /** Tries a waiting save again at once. */
  function tryNow(): void { wake?.() }

  /** One write. False where it must be tried again. */
  async function save(document: Document): Promise<boolean> {
    const base = written.get(placeOf(document))
    const baseRevision = base?.revision ?? 0
    const answer = isSession(document)
      ? await call('library.saveSession', { session: document, baseRevision })
      : await call('library.saveChassis', { chassis: document, baseRevision })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    if (answer.value.kind === 'saved') {
      written.set(placeOf(document), { ...document, revision: answer.value.revision } as Document)
      const latest = find(placeOf(document))
      if (latest) put({ ...latest, revision: answer.value.revision } as Document)
      keepByBrowser(placeOf(document))
      if (waiting.size === 0) keptByBrowser.value = true
      return true
    }
    join(answer.value.current as Document)
    tell('merged', document.name)
    waiting.add(placeOf(document))
    keepByBrowser(placeOf(document))
    return true
  }

  /** Takes what another window wrote into what stands here. */
  function join(theirs: Document): void {
    const base = written.get(placeOf(theirs))
    const mine = find(placeOf(theirs))
    written.set(placeOf(theirs), theirs)
    put(mine ? mergeDocuments(base ?? theirs, mine, theirs, { at: now(), why: 'another window' }) : theirs)
  }

  /** Looks whether another window wrote to this chassis, and takes it in. Called when the window is looked at again. */
  async function refresh(): Promise<void> {
    const open = chassis.value
    if (!open || writing) return
    const revisions = await call('library.revisions', { chassisId: open.id })
    if (!revisions.ok) return
    const { chassis: revision, sessions: others } = revisions.value
    const newer = revision !== (written.get(CHASSIS)?.revision ?? 0)
      || Object.entries(others).some(([id, each]) => each !== written.get(placeOfId(id))?.revision)
    if (!newer) return
    const answer = await call('library.open', { chassisId: open.id })
    if (!answer.ok || chassis.value?.id !== open.id) return
    for (const each of [answer.value.chassis, ...answer.value.sessions]) {
      if (each.revision !== written.get(placeOf(each))?.revision) join(each)
    }
    tell('refreshed', open.name)
  }

  /** Resolves once everything entered is on disk, or failed and waits. */
  async function settled(): Promise<void> {
    while (writing && saveState.value === 'saving') await new Promise((resolve) => { setTimeout(resolve, 5) })
  }

  return {
    chassis, sessions, squats, airflows, tracks, exchange, unreadable, error, saveState, said, undoable, redoable,
    keptByBrowser, recovered, recover, forgetRecovered, open, changeChassis, changeSession, addSession, removeSession,
    undo, redo, settled, refresh, tryNow, newId, now,
  }
})

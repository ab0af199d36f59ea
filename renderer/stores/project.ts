/**
 * The open chassis with its sessions. Every change is a new document, written down at once; the last
 * ones can be undone. A save that fails is kept and tried again; a save that meets another window's
 * writing is merged with it. Nothing entered is ever dropped.
 */
import {
  SCHEMA_VERSION, type AirflowSession, type Chassis, type Exchange, type Session, type SquatSession, type TrackSession,
} from '@core/schema'
import type { ServiceError, Unreadable } from '@core/services'
import { defineStore } from 'pinia'
import { computed, ref, shallowRef } from 'vue'
import { call } from '../client'
import { newId, now } from './ids'
import { mergeDocuments } from './merge'

type Document = Chassis | Session
interface Change { readonly id: string; readonly before: Document; readonly after: Document; readonly label: string }
type SaveState = 'saved' | 'saving' | 'waiting'

const UNDO_DEPTH = 200
const RETRY_MS = 3000
const isSession = (document: Document): document is Session => 'kind' in document
const copy = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T

export const useProject = defineStore('project', () => {
  const chassis = shallowRef<Chassis | null>(null)
  const sessions = shallowRef<readonly Session[]>([])
  const unreadable = ref<Unreadable[]>([])
  const error = ref<ServiceError | null>(null)
  const saveState = ref<SaveState>('saved')
  const said = ref('')
  const undoable = shallowRef<readonly Change[]>([])
  const redoable = shallowRef<readonly Change[]>([])

  /** Documents as they stand on disk, to merge from. */
  const written = new Map<string, Document>()
  const waiting = new Set<string>()
  let writing = false

  const squats = computed(() => sessions.value.filter((each): each is SquatSession => each.kind === 'squat'))
  const airflows = computed(() => sessions.value.filter((each): each is AirflowSession => each.kind === 'airflow'))
  const tracks = computed(() => sessions.value.filter((each): each is TrackSession => each.kind === 'track'))
  const exchange = computed<Exchange | null>(() => chassis.value && {
    format: 'squatbench-exchange', schemaVersion: SCHEMA_VERSION, chassis: chassis.value, sessions: [...sessions.value],
  })

  async function open(chassisId: string): Promise<boolean> {
    if (chassis.value?.id === chassisId) return true
    await settled()
    const answer = await call('library.open', { chassisId })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    written.clear()
    waiting.clear()
    undoable.value = []
    redoable.value = []
    chassis.value = answer.value.chassis
    sessions.value = answer.value.sessions
    unreadable.value = answer.value.unreadable
    for (const each of [answer.value.chassis, ...answer.value.sessions]) written.set(each.id, each)
    saveState.value = 'saved'
    return true
  }

  const find = (id: string): Document | undefined =>
    chassis.value?.id === id ? chassis.value : sessions.value.find((each) => each.id === id)

  function put(document: Document): void {
    if (!isSession(document)) { chassis.value = document; return }
    const known = sessions.value.some((each) => each.id === document.id)
    sessions.value = known
      ? sessions.value.map((each) => (each.id === document.id ? document : each))
      : [...sessions.value, document]
  }

  function step(before: Document, after: Document, label: string): void {
    undoable.value = [...undoable.value.slice(-UNDO_DEPTH + 1), { id: after.id, before, after, label }]
    redoable.value = []
    put(after)
    keep(after.id)
  }

  /** Changes the chassis: `edit` gets a copy to change. */
  function changeChassis(label: string, edit: (draft: Chassis) => void): void {
    if (!chassis.value) return
    const draft = copy(chassis.value)
    edit(draft)
    step(chassis.value, draft, label)
  }

  /** Changes a session of a kind: `edit` gets a copy to change. */
  function changeSession<K extends Session['kind']>(
    kind: K, id: string, label: string, edit: (draft: Extract<Session, { kind: K }>) => void,
  ): void {
    const before = sessions.value.find((each) => each.id === id)
    if (!before || before.kind !== kind) return
    const draft = copy(before) as Extract<Session, { kind: K }>
    edit(draft)
    step(before, draft, label)
  }

  /** Adds a new session to the chassis and writes it down. */
  function addSession(session: Session): void {
    put(session)
    keep(session.id)
  }

  /** Takes a session out of the chassis; its file goes to the library's folder of removed things. */
  async function removeSession(sessionId: string): Promise<void> {
    await settled()
    if (!chassis.value) return
    if (written.has(sessionId)) {
      const answer = await call('library.removeSession', { chassisId: chassis.value.id, sessionId })
      if (!answer.ok) { error.value = answer.error; return }
    }
    written.delete(sessionId)
    sessions.value = sessions.value.filter((each) => each.id !== sessionId)
  }

  function replay(from: typeof undoable, to: typeof redoable, pick: (change: Change) => Document, word: string): void {
    const change = from.value.at(-1)
    if (!change) return
    from.value = from.value.slice(0, -1)
    to.value = [...to.value, change]
    const current = find(change.id)
    put({ ...pick(change), revision: current?.revision ?? 0 } as Document)
    said.value = `${word}: ${change.label}`
    keep(change.id)
  }
  const undo = (): void => replay(undoable, redoable, (change) => change.before, '↶')
  const redo = (): void => replay(redoable, undoable, (change) => change.after, '↷')

  function keep(id: string): void {
    waiting.add(id)
    if (!writing) void writeDown()
  }

  async function writeDown(): Promise<void> {
    writing = true
    saveState.value = 'saving'
    while (waiting.size > 0) {
      const id = waiting.values().next().value as string
      waiting.delete(id)
      const document = find(id)
      if (document && !(await save(document))) {
        waiting.add(id)
        saveState.value = 'waiting'
        await new Promise((resolve) => { setTimeout(resolve, RETRY_MS) })
      }
    }
    writing = false
    saveState.value = 'saved'
  }

  /** One write. False where it must be tried again. */
  async function save(document: Document): Promise<boolean> {
    const base = written.get(document.id)
    const baseRevision = base?.revision ?? 0
    const answer = isSession(document)
      ? await call('library.saveSession', { session: document, baseRevision })
      : await call('library.saveChassis', { chassis: document, baseRevision })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    if (answer.value.kind === 'saved') {
      const kept = { ...document, revision: answer.value.revision } as Document
      written.set(document.id, kept)
      const latest = find(document.id)
      if (latest) put({ ...latest, revision: answer.value.revision } as Document)
      return true
    }
    const theirs = answer.value.current as Document
    const mine = find(document.id) ?? document
    written.set(document.id, theirs)
    put(mergeDocuments(base ?? theirs, mine, theirs))
    said.value = 'merged'
    waiting.add(document.id)
    return true
  }

  /** Resolves once everything entered is on disk, or failed and waits. */
  async function settled(): Promise<void> {
    while (writing && saveState.value === 'saving') await new Promise((resolve) => { setTimeout(resolve, 10) })
  }

  return {
    chassis, sessions, squats, airflows, tracks, exchange, unreadable, error, saveState, said, undoable, redoable,
    open, changeChassis, changeSession, addSession, removeSession, undo, redo, settled, newId, now,
  }
})

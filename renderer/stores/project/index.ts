/**
 * The open chassis with its sessions. Every change is a new document, written down at once; the last ones can be
 * undone. Nothing entered is ever dropped.
 */
import type { Chassis, Session } from '@core/schema'
import type { Unreadable } from '@core/services'
import { produce, setAutoFreeze } from 'immer'
import { defineStore } from 'pinia'
import { ref, shallowRef } from 'vue'
import { call } from '../../client'
import { now } from '../ids'
import { mergeDocuments } from '../merge'
import { plain } from '../plain'
import { documentKey, openDocuments, type Document } from './documents'
import { historyOf } from './history'
import { savingOf } from './saving'

/** What the window tells the builder about something that happened by itself or by a key. */
export interface Said { readonly key: 'merged' | 'undone' | 'redone' | 'refreshed'; readonly what: string; readonly count: number }

// Documents are shared between the undo steps and never changed in place; freezing them costs more than it finds.
setAutoFreeze(false)

export const useProject = defineStore('project', () => {
  const said = shallowRef<Said | null>(null)
  const tell = (key: Said['key'], what: string): void => { said.value = { key, what, count: (said.value?.count ?? 0) + 1 } }
  const documents = openDocuments()
  const { chassis, sessions, exchange } = documents
  const saving = savingOf(documents, tell)
  const { error, keptByBrowser, recovered, refresh, settled, tryNow } = saving
  const history = historyOf({
    shift(from, to) {
      const current = documents.find(documentKey(to))
      if (current) write(mergeDocuments(from, to, current, { at: now(), why: 'undo' }))
    },
    putBack: (session) => write({ ...session, revision: 0 }),
    takeOut: saving.takeOut,
  })
  const unreadable = ref<Unreadable[]>([])
  const altered = ref<Unreadable[]>([])

  /** Opens a chassis unless it is open already. False where it can't be had; `error` says why. */
  async function open(chassisId: string): Promise<boolean> {
    if (chassis.value?.id === chassisId) return true
    if (!(await saving.ready())) return false
    const answer = await call('library.open', { chassisId })
    if (!answer.ok) { error.value = answer.error; return false }
    error.value = null
    history.forget()
    chassis.value = answer.value.chassis
    sessions.value = answer.value.sessions
    unreadable.value = answer.value.unreadable
    altered.value = answer.value.altered
    saving.begin(answer.value.chassis, answer.value.sessions)
    return true
  }

  /** Takes what the browser kept of every car into the library. Called once, as the window opens. */
  async function recover(): Promise<void> {
    for (const chassisId of await saving.chassisKept()) {
      if (await open(chassisId)) await settled()
      else if (error.value?.code === 'notFound') {
        error.value = null
        saving.strandAll(chassisId)
      }
    }
  }

  /** Takes the copy of before a document's last change in the place of a file that can't be trusted. */
  async function takeSpare(file: Unreadable): Promise<void> {
    if (!file.spare) return
    await settled()
    const answer = await call('library.restore', { ...file.spare })
    if (!answer.ok) { error.value = answer.error; return }
    for (const list of [unreadable, altered]) list.value = list.value.filter((each) => each.file !== file.file)
    await refresh()
  }

  const forgetRecovered = (): void => { recovered.value = [] }

  function write(document: Document): void {
    documents.put(document)
    saving.keep(documentKey(document))
  }

  function change(before: Document, edited: Document, label: string): void {
    if (edited === before) return
    const after = plain(edited, before)
    history.remember({ kind: 'edit', before, after, label })
    write(after)
  }

  /** Changes the chassis: `edit` gets a draft to change. */
  function changeChassis(label: string, edit: (draft: Chassis) => void): void {
    const before = chassis.value
    if (before) change(before, produce(before, (draft) => { edit(draft as Chassis) }), label)
  }

  /** Changes a session of a kind: `edit` gets a draft to change. */
  function changeSession<K extends Session['kind']>(
    kind: K, id: string, label: string, edit: (draft: Extract<Session, { kind: K }>) => void,
  ): void {
    const before = sessions.value.find((each) => each.id === id)
    if (!before || before.kind !== kind) return
    change(before, produce(before, (draft) => { edit(draft as Extract<Session, { kind: K }>) }), label)
  }

  /** Adds a new session to the chassis and writes it down. */
  function addSession(made: Session): void {
    const session = plain(made)
    history.remember({ kind: 'add', session, label: session.name })
    write(session)
  }

  /** Does several changes as one that is taken back at once. */
  const together = (label: string, deed: () => void): void => history.together(label, deed)

  /** Takes a session out of the chassis; its file goes to the library's folder of removed things. */
  async function removeSession(sessionId: string): Promise<void> {
    const session = sessions.value.find((each) => each.id === sessionId)
    if (session && (await saving.takeOut(sessionId))) history.remember({ kind: 'remove', session, label: session.name })
  }

  async function undo(): Promise<void> {
    const undone = await history.undo()
    if (undone) tell('undone', undone.label)
  }

  async function redo(): Promise<void> {
    const redone = await history.redo()
    if (redone) tell('redone', redone.label)
  }

  return {
    chassis, sessions, exchange, squats: documents.ofKind('squat'), airflows: documents.ofKind('airflow'),
    tracks: documents.ofKind('track'), coasts: documents.ofKind('coast'), unreadable, altered, takeSpare, error,
    saveState: saving.state, said,
    undoable: history.undoable, redoable: history.redoable, keptByBrowser, recovered, recover, forgetRecovered,
    stranded: saving.stranded, letGo: saving.letGo, open,
    changeChassis, changeSession, addSession, together, removeSession, undo, redo, settled, refresh, tryNow,
  }
})

/** The open chassis and its sessions, as they stand in the window. */
import { EXCHANGE_FORMAT, SCHEMA_VERSION, type Chassis, type Exchange, type Session } from '@core/schema'
import { computed, shallowRef } from 'vue'

export type Document = Chassis | Session

export const isSession = (document: Document): document is Session => 'kind' in document

/** Key of the chassis among its documents. A session may have its chassis' id, so an id alone says too little. */
export const CHASSIS_KEY = 'chassis'
export const keyOfSession = (sessionId: string | null): string =>
  (sessionId === null ? CHASSIS_KEY : `session ${sessionId}`)
export const documentKey = (document: Document): string => keyOfSession(isSession(document) ? document.id : null)

/** True where two states of a document differ in their revision at the most. */
export const sameContent = (one: Document, other: Document | undefined): boolean => {
  if (one === other) return true
  const [a, b] = [one, other ?? {}] as Record<string, unknown>[]
  return [...new Set([...Object.keys(a!), ...Object.keys(b!)])].every((key) => key === 'revision' || a![key] === b![key])
}

export type OpenDocuments = ReturnType<typeof openDocuments>

export function openDocuments() {
  const chassis = shallowRef<Chassis | null>(null)
  const sessions = shallowRef<readonly Session[]>([])
  return {
    chassis, sessions,
    /** Everything as one file; null where no car is open. */
    exchange: computed<Exchange | null>(() => chassis.value && {
      format: EXCHANGE_FORMAT, schemaVersion: SCHEMA_VERSION, chassis: chassis.value, sessions: [...sessions.value],
    }),
    /** The sessions of a kind. A save that only counted a revision up gives the list that was there. */
    ofKind: <K extends Session['kind']>(kind: K) => computed((before?: readonly Extract<Session, { kind: K }>[]) => {
      const now = sessions.value.filter((each): each is Extract<Session, { kind: K }> => each.kind === kind)
      const unchanged = before?.length === now.length && now.every((each, index) => sameContent(each, before[index]))
      return unchanged ? before : now
    }),
    find: (key: string): Document | undefined => (key === CHASSIS_KEY ? chassis.value ?? undefined
      : sessions.value.find((each) => documentKey(each) === key)),
    /** Puts a document in the place of its older state, or adds it. */
    put(document: Document): void {
      if (!isSession(document)) { chassis.value = document; return }
      const known = sessions.value.some((each) => each.id === document.id)
      sessions.value = known
        ? sessions.value.map((each) => (each.id === document.id ? document : each))
        : [...sessions.value, document]
    },
  }
}

/**
 * The window's side of the service table: over the bridge on the desktop, over the loopback host in
 * a browser. Both answer with the same `Answer`.
 */
import {
  LIBRARY_HEADER, SERVICE_PATH, type Answer, type PageCommand, type ServiceInput, type ServiceName, type ServiceOutput,
} from '@core/services'

/** What the desktop's preload puts on the window. */
interface Bridge {
  call(name: string, input: unknown): Promise<Answer<unknown>>
  onCommand(hear: (command: PageCommand) => void): void
}

const bridge = (): Bridge | undefined => (globalThis as { squatbench?: Bridge }).squatbench

/** Whether a host stands behind this window that can end before it does. */
export const isServed = (): boolean => bridge() === undefined

/** Hears what is chosen in the desktop window's menu; a browser has no menu of ours. */
export const onCommand = (hear: (command: PageCommand) => void): void => bridge()?.onCommand(hear)

/** The library this window was opened on, once it is known; the host refuses what is meant for another one. */
let openedOn: string | null = null

/** The library this window was opened on, or null where nobody answers yet. */
export async function libraryId(): Promise<string | null> {
  if (openedOn !== null) return openedOn
  const answer = await call('library.identity', {})
  if (answer.ok) openedOn = answer.value.libraryId
  return openedOn
}

/**
 * Calls one service. Never throws: a broken connection becomes an `unavailable` error. Over the bridge nothing
 * breaks by itself, so what does is a mistake of ours: it is named, and shown in the console.
 */
export async function call<N extends ServiceName>(name: N, input: ServiceInput<N>): Promise<Answer<ServiceOutput<N>>> {
  const desktop = bridge()
  try {
    if (desktop) return (await desktop.call(name, input)) as Answer<ServiceOutput<N>>
    const response = await fetch(`${SERVICE_PATH}${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...(openedOn !== null && { [LIBRARY_HEADER]: openedOn }) },
      body: JSON.stringify(input),
    })
    return (await response.json()) as Answer<ServiceOutput<N>>
  } catch (error) {
    if (desktop) {
      console.error(name, error)
      return { ok: false, error: { code: 'failed', message: `${name}: ${String(error)}`, problems: [] } }
    }
    return { ok: false, error: { code: 'unavailable', message: 'Squatbench does not answer.', problems: [] } }
  }
}

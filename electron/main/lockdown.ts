/** What every page of the program may not do, whatever it holds. */
import { app, session } from 'electron'
import type { PermissionCheckHandlerHandlerDetails, Session, WebContents } from 'electron'
import { isOwnAddress } from './pageScheme'

/** What may be loaded at all: our files, and what a page made by itself. */
const LOCAL = /^(?:squatbench|blob|data|devtools):/

/** Holds for every window made from now on, hidden ones too. */
export function lockDown(): void {
  app.on('web-contents-created', (_event, contents) => confine(contents))
  lockSession(session.defaultSession)
}

/** Refuses what leads out: other addresses, new windows, embedded views. */
function confine(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }))
  contents.on('will-attach-webview', (event) => event.preventDefault())
  for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect'] as const) {
    contents.on(name as 'will-navigate', (event) => {
      if (!isOwnAddress(event.url)) event.preventDefault()
    })
  }
}

/** On what terms our own page has a permission: when it asks for it, and when it looks whether it has it. */
interface Terms {
  requested: (details: RequestDetails) => boolean
  checked: (details: PermissionCheckHandlerHandlerDetails) => boolean
}
type RequestDetails = Parameters<NonNullable<Parameters<Session['setPermissionRequestHandler']>[0]>>[3]

/** Every permission that is used, and no other: writing to the clipboard, for "copy", and the camera's picture. */
const GIVEN: Readonly<Record<string, Terms>> = {
  'clipboard-sanitized-write': { requested: () => true, checked: () => true },
  // The live bench looks and does not listen: the picture alone, never sound.
  media: {
    requested: (details) => 'mediaTypes' in details && details.mediaTypes?.join() === 'video',
    checked: ({ mediaType }) => mediaType === 'video',
  },
}

/**
 * No permission is given but those that are used, to our own page. No request leaves the machine,
 * dictionaries of the spelling checker included.
 */
export function lockSession(ses: Session): void {
  const terms = (permission: string): Terms | undefined =>
    (Object.hasOwn(GIVEN, permission) ? GIVEN[permission] : undefined)
  ses.setPermissionRequestHandler((contents, permission, answer, details) =>
    answer(isOwnAddress(contents.getURL()) && terms(permission)?.requested(details) === true))
  ses.setPermissionCheckHandler((_contents, permission, origin, details) =>
    isOwnAddress(origin) && terms(permission)?.checked(details) === true)
  ses.setDevicePermissionHandler(() => false)
  ses.setSpellCheckerEnabled(false)
  ses.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !LOCAL.test(details.url) }))
}

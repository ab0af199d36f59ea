/** What every page of the program may not do, whatever it holds. */
import { app, session } from 'electron'
import type { Session, WebContents } from 'electron'
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

/**
 * No permission is given but one that is used: writing to the clipboard, for "copy". No request
 * leaves the machine, dictionaries of the spelling checker included.
 */
export function lockSession(ses: Session): void {
  const given = ['clipboard-sanitized-write']
  ses.setPermissionRequestHandler((contents, permission, answer) =>
    answer(given.includes(permission) && isOwnAddress(contents.getURL())))
  ses.setPermissionCheckHandler((_contents, permission, origin) => given.includes(permission) && isOwnAddress(origin))
  ses.setDevicePermissionHandler(() => false)
  ses.setSpellCheckerEnabled(false)
  ses.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !LOCAL.test(details.url) }))
}

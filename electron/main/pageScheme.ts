/** The window's own scheme: serves the built window from its folder, and nothing else. */
import { protocol } from 'electron'
import { PAGE_HEADERS } from '../page/headers'
import { pageFile } from '../page/pageFiles'

const SCHEME = 'squatbench'
const HOST = 'app'

/** The address of the window's page. */
export const PAGE_ADDRESS = `${SCHEME}://${HOST}/`

/** True for an address of our own page. */
export function isOwnAddress(address: string): boolean {
  if (!URL.canParse(address)) return false
  const { protocol: scheme, host } = new URL(address)
  return scheme === `${SCHEME}:` && host === HOST
}

/** Before `ready`: makes the scheme one with an origin of its own, as secure as https. */
export function registerPageScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ])
}

/** After `ready`: answers for the scheme. */
export function servePages(folder: string): void {
  protocol.handle(SCHEME, async (request) => {
    const path = isOwnAddress(request.url) && request.method === 'GET' ? new URL(request.url).pathname : null
    const file = path === null ? null : await pageFile(folder, path)
    if (file === null) return new Response('Nothing here.', { status: 404, headers: PAGE_HEADERS })
    return new Response(file.content, { headers: { ...PAGE_HEADERS, 'content-type': file.type } })
  })
}

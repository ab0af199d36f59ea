/**
 * The loopback host: the window and the service table for a browser on this machine and nobody else.
 *
 * What it holds against: pages of other sites (SameSite cookie, Origin, Sec-Fetch-Site, JSON only),
 * names that are made to lead here (the Host header must be our own address), other users of the
 * machine (token and session of 256 random bits), paths that lead out, bodies too large or too slow.
 */
import { createServer } from 'node:http'
import type { IncomingMessage, Server, ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { LIBRARY_HEADER, SERVICE_PATH } from '@core/services'
import type { ServiceError } from '@core/services'
import type { Dispatch } from '@electron/services'
import { PAGE_HEADERS } from '../page/headers'
import { pageFile } from '../page/pageFiles'
import { Admission } from './admission'
import { bodyLimit, readBody } from './body'
import { noticePage } from './notice'

const LOOPBACK = '127.0.0.1'

export interface HostOptions {
  dispatch: Dispatch
  /** The built window. */
  pageFolder: string
  /** The library served: a window that was opened on another one is refused. */
  libraryId?: string
  /** 0 takes any free one. */
  port?: number
  /** A request that takes longer to arrive is dropped, ms. */
  arrivalMs?: number
}

export interface Host {
  /** What the builder opens: with the one-time token. */
  address: string
  /** The address without the token. */
  origin: string
  close(): Promise<void>
}

/**
 * Starts the host.
 * @throws the system's error where the port can't be had
 */
export async function startHost(
  { dispatch, pageFolder, libraryId, port = 0, arrivalMs = 60_000 }: HostOptions,
): Promise<Host> {
  const server = createServer({
    headersTimeout: Math.min(10_000, arrivalMs),
    requestTimeout: arrivalMs,
    connectionsCheckingInterval: Math.min(1_000, arrivalMs),
    maxHeaderSize: 16 * 1024,
  })
  await listen(server, port)
  const origin = `http://${LOOPBACK}:${(server.address() as AddressInfo).port}`
  const admission = new Admission((server.address() as AddressInfo).port)
  server.on('request', (request, response) => {
    void answer(request, response, { dispatch, pageFolder, libraryId, origin, admission }).catch(() => {
      if (!response.headersSent) notice(response, 500, 'failed')
      response.end()
    })
  })
  return {
    address: `${origin}/?token=${admission.token}`,
    origin,
    close: () => new Promise((done, fail) => {
      server.close((error) => (error === undefined ? done() : fail(error)))
      server.closeIdleConnections()
      setTimeout(() => server.closeAllConnections(), 1_000).unref()
    }),
  }
}

interface Inside {
  dispatch: Dispatch
  pageFolder: string
  libraryId: string | undefined
  origin: string
  admission: Admission
}

async function answer(request: IncomingMessage, response: ServerResponse, inside: Inside): Promise<void> {
  if (`http://${request.headers.host ?? ''}` !== inside.origin) return notice(response, 421, 'otherName')
  const url = addressOf(request, inside.origin)
  if (url === null) return notice(response, 400, 'noAddress')
  if (url.pathname.startsWith(SERVICE_PATH)) return service(request, response, url, inside)
  if (request.method !== 'GET' && request.method !== 'HEAD') return notice(response, 405, 'method')
  const token = url.pathname === '/' ? url.searchParams.get('token') : null
  if (token !== null) return enter(request, response, token, inside)
  if (!inside.admission.admits(request.headers.cookie)) return notice(response, 403, 'noSession')
  const file = await pageFile(inside.pageFolder, (request.url ?? '').split(/[?#]/)[0] ?? '')
  if (file === null) return notice(response, 404, 'noFile')
  send(response, 200, file.type, request.method === 'HEAD' ? '' : file.content)
}

/** Takes the token, once; whoever has the session already just goes on. */
function enter(request: IncomingMessage, response: ServerResponse, token: string, { admission }: Inside): void {
  const cookies = admission.exchange(token, request.headers.cookie)
  if (cookies === null && !admission.admits(request.headers.cookie)) return notice(response, 403, 'usedToken')
  if (cookies !== null) response.setHeader('set-cookie', cookies)
  response.setHeader('location', '/')
  send(response, 303, 'text/plain; charset=utf-8', '')
}

async function service(
  request: IncomingMessage, response: ServerResponse, url: URL, { dispatch, libraryId, origin, admission }: Inside,
): Promise<void> {
  if (request.method !== 'POST') return refuse(response, 405, 'Services are asked by POST.')
  const site = request.headers['sec-fetch-site']
  if (request.headers.origin !== origin || (site !== undefined && site !== 'same-origin')) {
    return refuse(response, 403, 'Only Squatbench’s own page may ask.')
  }
  if (!admission.admits(request.headers.cookie)) {
    const message = 'Squatbench was started anew. Open the address it printed in its terminal.'
    return refuse(response, 403, message, 'noSession')
  }
  const meant = request.headers[LIBRARY_HEADER]
  if (meant !== undefined && libraryId !== undefined && meant !== libraryId) {
    const message = 'Another library is served at this address now. Start Squatbench with the library of before.'
    return refuse(response, 409, message, 'otherLibrary')
  }
  const type = (request.headers['content-type'] ?? '').toLowerCase().replace(/\s/g, '')
  if (type !== 'application/json' && type !== 'application/json;charset=utf-8') {
    return refuse(response, 415, 'Services take JSON.')
  }
  const name = url.pathname.slice(SERVICE_PATH.length)
  const body = await readBody(request, bodyLimit(name))
  if (body.kind === 'tooLarge') return refuse(response, 413, 'This is too large to be sent in one piece.')
  if (body.kind === 'notJson') return refuse(response, 400, 'What was sent is not JSON text in UTF-8.')
  if (body.kind === 'broken') return void response.destroy()
  json(response, 200, await dispatch(name, body.value))
}

/** A refusal has the shape of every answer, so that the window can show it. */
function refuse(
  response: ServerResponse, status: number, message: string, code: ServiceError['code'] = 'refused',
): void {
  const error: ServiceError = { code, message, problems: [] }
  // The rest of a refused body is not waited for.
  response.setHeader('connection', 'close')
  json(response, status, { ok: false, error })
}

const json = (response: ServerResponse, status: number, value: unknown): void =>
  send(response, status, 'application/json; charset=utf-8', JSON.stringify(value))

function notice(response: ServerResponse, status: number, about: Parameters<typeof noticePage>[0]): void {
  response.setHeader('connection', 'close')
  send(response, status, 'text/html; charset=utf-8', noticePage(about))
}

function send(response: ServerResponse, status: number, type: string, content: string | Uint8Array): void {
  response.writeHead(status, { ...PAGE_HEADERS, 'content-type': type })
  response.end(content)
}

/** The address asked for, or null where it is no path of ours (an absolute address, a broken one). */
function addressOf(request: IncomingMessage, origin: string): URL | null {
  const path = request.url ?? ''
  if (!path.startsWith('/') || !URL.canParse(`${origin}${path}`)) return null
  const url = new URL(`${origin}${path}`)
  return url.origin === origin ? url : null
}

function listen(server: Server, port: number): Promise<void> {
  return new Promise((done, fail) => {
    server.once('error', fail)
    server.listen(port, LOOPBACK, () => {
      server.off('error', fail)
      done()
    })
  })
}

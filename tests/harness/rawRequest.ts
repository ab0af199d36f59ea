/** One HTTP request with every header as given: what a browser would never let a page send. */
import { request as httpRequest } from 'node:http'
import type { IncomingHttpHeaders } from 'node:http'

export interface RawAnswer { status: number; headers: IncomingHttpHeaders; text: string }

export interface RawRequest {
  method?: string
  /** Sent as it stands: not normalised, not encoded. */
  path: string
  headers?: Record<string, string>
  body?: string | Buffer
}

/** Sends it to a port of the loopback address. @throws where the connection breaks */
export function rawRequest(port: number, { method = 'GET', path, headers = {}, body }: RawRequest): Promise<RawAnswer> {
  return new Promise((done, fail) => {
    const sent = httpRequest({ host: '127.0.0.1', port, method, path, headers, agent: false }, (response) => {
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (chunk: string) => (text += chunk))
      response.on('end', () => done({ status: response.statusCode ?? 0, headers: response.headers, text }))
      response.on('error', fail)
    })
    sent.on('error', fail)
    sent.end(body)
  })
}

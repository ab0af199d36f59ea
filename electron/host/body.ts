/** Reads a request's JSON body within a bound. */
import type { IncomingMessage } from 'node:http'
import { readJson } from '@core/schema'

/** Largest body, bytes: an import or a report may be long, a session with its thumbnails less so. */
const LARGE = 256 * 1024 * 1024
const USUAL = 64 * 1024 * 1024
const LARGE_SERVICES = ['exchange.import', 'report.pdf']

/** The bound for the body of a call. */
export const bodyLimit = (service: string): number => (LARGE_SERVICES.includes(service) ? LARGE : USUAL)

export type Body = { kind: 'json'; value: unknown } | { kind: 'tooLarge' } | { kind: 'notJson' } | { kind: 'broken' }

/** Reads to the end; what goes over the bound is let pass unkept, so that the sender still hears the answer. */
export async function readBody(request: IncomingMessage, limit: number): Promise<Body> {
  const text = await readText(request, limit)
  if (typeof text !== 'string') return text
  const json = readJson(text)
  return json.ok ? { kind: 'json', value: json.value } : { kind: 'notJson' }
}

function readText(request: IncomingMessage, limit: number): Promise<string | Body> {
  if (Number(request.headers['content-length'] ?? 0) > limit) {
    request.resume()
    return Promise.resolve({ kind: 'tooLarge' })
  }
  return new Promise((done) => {
    let chunks: Buffer[] = []
    let length = 0
    request.on('data', (chunk: Buffer) => {
      length += chunk.length
      if (length <= limit) chunks.push(chunk)
      else chunks = []
    })
    request.on('end', () => done(length > limit ? { kind: 'tooLarge' } : utf8(Buffer.concat(chunks))))
    request.on('close', () => done({ kind: 'broken' }))
  })
}

function utf8(bytes: Buffer): string | Body {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return { kind: 'notJson' }
  }
}

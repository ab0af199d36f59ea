/** Talks to the loopback host as a browser would: enters with the token, keeps the cookie, posts to the table. */
import { request } from 'node:http'
import { SERVICE_PATH } from '@core/services'
import type { Answer, ServiceInput, ServiceName, ServiceOutput } from '@core/services'

export interface Reply { status: number; headers: Record<string, string | string[] | undefined>; text: string }

interface Sent { method?: string; headers?: Record<string, string>; body?: string }

/** One plain request; the headers are sent as given. */
export function ask(address: string, { method = 'GET', headers = {}, body }: Sent = {}): Promise<Reply> {
  return new Promise((done, fail) => {
    const sent = request(address, { method, headers, agent: false }, (response) => {
      const chunks: Buffer[] = []
      response.on('data', (chunk: Buffer) => chunks.push(chunk))
      response.on('error', fail)
      response.on('aborted', () => fail(new Error('the host broke off')))
      response.on('end', () => done({
        status: response.statusCode ?? 0, headers: response.headers, text: Buffer.concat(chunks).toString('utf8'),
      }))
    })
    sent.on('error', fail)
    sent.end(body)
  })
}

export type Call = <N extends ServiceName>(name: N, input: ServiceInput<N>) => Promise<Answer<ServiceOutput<N>>>

/**
 * Exchanges the token of an address for a session.
 * @throws where the host does not let in, and in each call where the connection breaks
 */
export async function enter(address: string): Promise<{ call: Call; cookie: string; origin: string }> {
  const { origin } = new URL(address)
  const reply = await ask(address)
  const cookie = String(reply.headers['set-cookie'] ?? '').split(';')[0] ?? ''
  if (reply.status !== 303 || cookie === '') throw new Error(`not let in: status ${reply.status}`)
  const call: Call = async (name, input) => {
    const answer = await ask(`${origin}${SERVICE_PATH}${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin, cookie },
      body: JSON.stringify(input),
    })
    return JSON.parse(answer.text) as Answer<never>
  }
  return { call, cookie, origin }
}

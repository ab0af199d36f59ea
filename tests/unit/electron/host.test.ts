import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { connect } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { startHost } from '@electron/host'
import type { Host } from '@electron/host'
import { sameSecret } from '@electron/host/admission'
import { libraryAt } from '../../harness/libraryAt'
import type { Opened } from '../../harness/libraryAt'
import { rawRequest } from '../../harness/rawRequest'
import type { RawRequest } from '../../harness/rawRequest'

let folder: string
let host: Host
let at: Opened
let port: number
let cookie: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-host-'))
  const page = join(folder, 'page')
  await mkdir(join(page, 'assets'), { recursive: true })
  await writeFile(join(page, 'index.html'), '<!doctype html><title>Own page</title>')
  await writeFile(join(page, 'assets', 'app.js'), 'export {}')
  await writeFile(join(page, 'assets', 'data.unknown'), 'x')
  await writeFile(join(folder, 'secret.txt'), 'secret')
  await symlink(join(folder, 'secret.txt'), join(page, 'assets', 'link.txt'))
  at = libraryAt(join(folder, 'library'))
  host = await startHost({ dispatch: at.dispatch, pageFolder: page, libraryId: '0123456789abcdef' })
  port = Number(new URL(host.origin).port)
  cookie = await enter()
})
afterAll(async () => {
  await host.close()
  await rm(folder, { recursive: true, force: true })
})

const send = (request: RawRequest) =>
  rawRequest(port, { ...request, headers: { host: `127.0.0.1:${port}`, ...request.headers } })
const get = (path: string, headers: Record<string, string> = {}) => send({ path, headers: { cookie, ...headers } })
const ask = (name: string, input: unknown, headers: Record<string, string> = {}, method = 'POST') => send({
  method,
  path: `/service/${name}`,
  headers: { cookie, origin: host.origin, 'content-type': 'application/json', ...headers },
  body: typeof input === 'string' ? input : JSON.stringify(input),
})

/** The name of our session's cookie; it differs at each start. */
const cookieName = (): string => cookie.split('=')[0] ?? ''

async function enter(): Promise<string> {
  const { pathname, search } = new URL(host.address)
  const { status, headers } = await send({ path: pathname + search })
  expect(status).toBe(303)
  return (headers['set-cookie']?.[0] ?? '').split(';')[0] ?? ''
}

describe('coming in', () => {
  it('gives an unreadable, site-bound session for the token and leads to the page without it', async () => {
    const other = await startHost({ dispatch: at.dispatch, pageFolder: folder })
    const { pathname, search, host: name } = new URL(other.address)
    const otherPort = Number(new URL(other.origin).port)
    const answer = await rawRequest(otherPort, { path: pathname + search, headers: { host: name } })
    expect(answer.headers['set-cookie']).toEqual([
      expect.stringMatching(/^squatbench-\d+-[0-9a-f]{16}=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/),
    ])
    expect(answer.headers.location).toBe('/')
    await other.close()
  })

  it('takes the token once', async () => {
    const { pathname, search } = new URL(host.address)
    const again = await send({ path: pathname + search })
    expect(again.status).toBe(403)
    expect(again.headers['set-cookie']).toBeUndefined()
    expect(again.text).toContain('used already')
  })

  it('lets who is in already follow the address again, as a reload does', async () => {
    const { pathname, search } = new URL(host.address)
    expect((await get(pathname + search)).status).toBe(303)
    expect((await get('/')).text).toContain('Own page')
    expect((await get('/')).status).toBe(200)
  })

  it.each(['', 'x', 'x'.repeat(43), 'x'.repeat(5000)])('refuses the guess %j', async (guess) => {
    expect((await send({ path: `/?token=${guess}` })).status).toBe(403)
    expect((await send({ path: '/', headers: { cookie: `${cookieName()}=${guess}` } })).status).toBe(403)
  })

  it('shows nothing of the app without a session', async () => {
    for (const path of ['/', '/index.html', '/assets/app.js']) {
      const answer = await send({ path })
      expect([answer.status, answer.text.includes('Own page')]).toEqual([403, false])
    }
  })

  it('makes another token and session at each start', async () => {
    const other = await startHost({ dispatch: at.dispatch, pageFolder: folder })
    expect(other.address.split('token=')[1]).not.toBe(host.address.split('token=')[1])
    const otherPort = Number(new URL(other.origin).port)
    const session = cookie.split('=')[1] ?? ''
    const { pathname, search, host: name } = new URL(other.address)
    const entered = await rawRequest(otherPort, { path: pathname + search, headers: { host: name } })
    const [otherName = ''] = (entered.headers['set-cookie']?.[0] ?? '').split('=')
    const answer = await rawRequest(otherPort, { path: '/', headers: { host: name, cookie: `${otherName}=${session}` } })
    expect(answer.status).toBe(403)
    await other.close()
  })

  it('is not locked out by cookies that another program of this address laid into the same jar', async () => {
    for (const junk of [
      `${cookieName()}=junk; ${cookie}`, `${cookie}; ${cookieName()}=junk`, `squatbench-${port}=junk; ${cookieName()}=; ${cookie}`,
    ]) {
      expect([junk, (await get('/', { cookie: junk })).status]).toEqual([junk, 200])
      expect([junk, (await ask('library.list', {}, { cookie: junk })).status]).toEqual([junk, 200])
    }
    expect((await get('/', { cookie: `${cookieName()}=junk` })).status).toBe(403)
  })

  it('ends the cookies of earlier starts, and gives its own a name that nobody can know', async () => {
    const other = await startHost({ dispatch: at.dispatch, pageFolder: folder })
    const { pathname, search, host: name, port: otherPort } = new URL(other.address)
    const before = `squatbench-${otherPort}-0000000000000000`
    const answer = await rawRequest(Number(otherPort), {
      path: pathname + search, headers: { host: name, cookie: `${before}=junk; squatbench-1-ab=other; ${before}=again` },
    })
    const [own = '', ...rest] = answer.headers['set-cookie'] ?? []
    expect(rest).toEqual([`${before}=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict`])
    expect(own.split('=')[0]).not.toBe(cookieName().replace(String(port), otherPort))
    await other.close()
  })

  it('compares secrets of any length', () => {
    expect(sameSecret('abc', 'abc')).toBe(true)
    expect(sameSecret('abc', 'abd')).toBe(false)
    expect(sameSecret('abc', '')).toBe(false)
  })
})

describe('who may ask', () => {
  it('is the own page: the same answer as from the table', async () => {
    const answer = await ask('library.list', {})
    expect(answer.status).toBe(200)
    expect(JSON.parse(answer.text)).toEqual(await at.call('library.list', {}))
  })

  it.each([
    ['a name made to lead here', { host: 'evil.example' }, 421],
    ['a name made to lead here, with our port', { host: 'evil.example:80' }, 421],
    ['localhost in place of the address', { host: 'localhost' }, 421],
    ['a page of another site', { origin: 'https://evil.example' }, 403],
    ['a page of another port', { origin: 'http://127.0.0.1:1' }, 403],
    ['a page without an origin', { origin: 'null' }, 403],
    ['a request from another site', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a request from the same site but not us', { 'sec-fetch-site': 'same-site' }, 403],
    ['no session', { cookie: '' }, 403],
    ['a session of another port', { cookie: 'squatbench-1=abc' }, 403],
    ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
    ['a text of a form', { 'content-type': 'text/plain' }, 415],
  ])('is not %s', async (_case, headers, status) => {
    const answer = await ask('library.list', {}, headers)
    expect(answer.status).toBe(status)
    expect(answer.headers['access-control-allow-origin']).toBeUndefined()
  })

  it('is not a request without an Origin', async () => {
    const answer = await send({
      method: 'POST', path: '/service/library.list', headers: { cookie, 'content-type': 'application/json' }, body: '{}',
    })
    expect(answer.status).toBe(403)
  })

  it.each(['GET', 'PUT', 'DELETE', 'OPTIONS'])('is not the method %s', async (method) => {
    const answer = await ask('library.list', {}, {}, method)
    expect(answer.status).toBe(405)
  })

  it('is told in words what is refused', async () => {
    const answer = await ask('library.list', {}, { cookie: '' })
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false, error: { code: 'noSession' } })
  })

  it('is not a window that was opened on another library', async () => {
    expect((await ask('library.list', {}, { 'x-squatbench-library': '0123456789abcdef' })).status).toBe(200)
    const other = await ask('library.list', {}, { 'x-squatbench-library': 'fedcba9876543210' })
    expect(other.status).toBe(409)
    expect(JSON.parse(other.text)).toMatchObject({ ok: false, error: { code: 'otherLibrary' } })
  })

  it.each(['', 'nothing', '__proto__', 'constructor', 'library.list/', '..%2flibrary.list'])(
    'gets a refusal for the service %j', async (name) => {
      expect(JSON.parse((await ask(name, {})).text)).toMatchObject({ ok: false, error: { code: 'refused' } })
    },
  )

  it.each(['', '{', '\u0000', '"\ud800"'])('gets an answer for the body %j', async (body) => {
    const answer = await ask('library.open', body)
    expect(JSON.parse(answer.text)).toMatchObject({ ok: false })
  })

  it('can reach the host on the loopback address only', async () => {
    const outside = Object.values(networkInterfaces()).flat()
      .find((each) => each !== undefined && each.family === 'IPv4' && !each.internal)
    if (outside === undefined) return console.log('This machine has no other address to try.')
    const reached = await new Promise<boolean>((done) => {
      const socket = connect({ host: outside.address, port, timeout: 2_000 })
      socket.on('connect', () => done(true)).on('error', () => done(false)).on('timeout', () => done(false))
    })
    expect(reached).toBe(false)
  })
})

describe('bodies', () => {
  it('too large are refused by their stated length and by their real one', async () => {
    const stated = await ask('library.open', '{}', { 'content-length': String(65 * 1024 * 1024) }).catch(() => null)
    expect(stated === null || stated.status === 413).toBe(true)
    const real = await ask('library.open', `"${'x'.repeat(65 * 1024 * 1024)}"`)
    expect([real.status, (JSON.parse(real.text) as { ok: boolean }).ok]).toEqual([413, false])
  })

  it('too slow are dropped', async () => {
    const slow = await startHost({ dispatch: at.dispatch, pageFolder: folder, arrivalMs: 200 })
    const slowPort = Number(new URL(slow.origin).port)
    const startedMs = performance.now()
    const text = await new Promise<string>((done) => {
      let heard = ''
      const socket = connect({ host: '127.0.0.1', port: slowPort })
      socket.write(`POST /service/library.list HTTP/1.1\r\nHost: 127.0.0.1:${slowPort}\r\nContent-Length: 100\r\n`)
      const drip = setInterval(() => socket.write('X-Drip: 1\r\n'), 50)
      socket.on('data', (chunk) => (heard += String(chunk)))
      socket.on('error', () => undefined)
      socket.on('close', () => {
        clearInterval(drip)
        done(heard)
      })
    })
    expect(text).toContain('408')
    expect(performance.now() - startedMs).toBeLessThan(5_000)
    await slow.close()
  })
})

describe('files', () => {
  it('come with a strict policy and their type', async () => {
    const { status, headers } = await get('/assets/app.js')
    expect(status).toBe(200)
    expect(headers['content-type']).toBe('text/javascript; charset=utf-8')
    expect(headers['x-content-type-options']).toBe('nosniff')
    expect(headers['referrer-policy']).toBe('no-referrer')
    expect(headers['cross-origin-resource-policy']).toBe('same-origin')
    const policy = String(headers['content-security-policy'])
    expect(policy).toContain("default-src 'none'")
    expect(policy).toContain("frame-ancestors 'none'")
    expect(policy).not.toMatch(/unsafe|http:|https:|\*/)
  })

  it.each([
    '/../secret.txt', '/assets/../../secret.txt', '/..%2fsecret.txt', '/%2e%2e/secret.txt', '/assets/..%5c..%5csecret.txt',
    '//secret.txt', '/assets/%00app.js', '/assets/app.js%00.html', '/assets/link.txt', '/%', '/assets', '/assets/',
    '/assets/data.unknown', '/.git/config', '/assets//app.js', '/C:/secret.txt', '/file:///etc/passwd', '/nothing.js',
  ])('are not found at %s', async (path) => {
    const answer = await get(path)
    expect(answer.status).toBe(404)
    expect(answer.text).not.toContain('secret')
  })

  it('are not found at absolute addresses', async () => {
    expect((await get('http://evil.example/')).status).toBe(400)
  })
})

describe('the end', () => {
  it('closes the port, and the same port can be had again', async () => {
    const first = await startHost({ dispatch: at.dispatch, pageFolder: folder })
    const taken = Number(new URL(first.origin).port)
    await expect(startHost({ dispatch: at.dispatch, pageFolder: folder, port: taken })).rejects.toThrow('EADDRINUSE')
    await first.close()
    const second = await startHost({ dispatch: at.dispatch, pageFolder: folder, port: taken })
    expect(second.origin).toBe(first.origin)
    await second.close()
  })
})

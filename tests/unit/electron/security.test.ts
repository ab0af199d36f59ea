/** Promises of docs/security.md that no other test holds, and that every test named there exists. */
import { readdirSync, readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { startHost } from '@electron/host'
import type { Host } from '@electron/host'
import { builderConfig } from '@electron/tools/builderConfig'
import { enter } from '../../harness/hostClient'

const text = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8')

describe('the page on security', () => {
  it('names tests that are there', () => {
    const named = [...text('docs/security.md').matchAll(/`([\w.]+\.(?:test|e2e)\.ts)`: "([^"]+)"/g)]
    expect(named.length).toBeGreaterThan(30)
    for (const [, file, title] of named) {
      const folder = file?.endsWith('.e2e.ts') ? 'tests/e2e' : 'tests/unit/electron'
      expect([title, text(`${folder}/${file}`).includes(title ?? '?')]).toEqual([title, true])
    }
  })
})

describe('the sources of the desktop window', () => {
  it('call nothing that opens foreign programs or addresses from the desktop window', () => {
    for (const folder of ['electron/main', 'electron/preload', 'electron/page', 'electron/services', 'electron/host']) {
      const files = readdirSync(new URL(`../../../${folder}`, import.meta.url))
      expect(files.length).toBeGreaterThan(0)
      for (const file of files) {
        expect([file, text(`${folder}/${file}`).match(/openExternal|openPath|child_process|\beval\(|new Function/g)])
          .toEqual([file, null])
      }
    }
  })
})

describe('the fuses of the packaged program', () => {
  it('turn off what a packaged program does not need', () => {
    expect(builderConfig().electronFuses).toMatchObject({
      runAsNode: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    })
  })
})

describe('a request to the loopback host', () => {
  let folder: string
  let host: Host
  const asked: string[] = []

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'squatbench-security-'))
    const dispatch = async (name: unknown) => {
      asked.push(String(name))
      return { ok: true as const, value: {} }
    }
    host = await startHost({ dispatch, pageFolder: folder, arrivalMs: 300 })
  })
  afterAll(async () => {
    await host.close()
    await rm(folder, { recursive: true, force: true })
  })

  /** Sends a head that promises a body, and a part of it; answers what came back until the host hung up. */
  function promise(cookie: string): Promise<{ heard: string; tookMs: number }> {
    const { port, host: own } = new URL(host.origin)
    const startedMs = performance.now()
    return new Promise((done) => {
      let heard = ''
      const socket = connect({ host: '127.0.0.1', port: Number(port) })
      socket.write(`POST /service/library.list HTTP/1.1\r\nHost: ${own}\r\nOrigin: ${host.origin}\r\nCookie: ${cookie}\r\n`
        + 'Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n{')
      socket.on('data', (chunk) => (heard += String(chunk)))
      socket.on('error', () => undefined)
      socket.on('close', () => done({ heard, tookMs: performance.now() - startedMs }))
      socket.on('end', () => socket.end())
    })
  }

  it('is dropped when its body does not arrive', async () => {
    const { cookie } = await enter(host.address)
    const { tookMs } = await promise(cookie)
    expect(tookMs).toBeGreaterThan(250)
    expect(tookMs).toBeLessThan(5_000)
    expect(asked).toEqual([])
  })

  it('is refused before its body has arrived where there is no session', async () => {
    const { heard } = await promise('squatbench=guess')
    expect(heard).toMatch(/^HTTP\/1\.1 403 /)
    expect(asked).toEqual([])
  })
})

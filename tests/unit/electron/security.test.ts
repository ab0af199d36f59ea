/** Promises on security that no other test holds, and that every test named for one exists. */
import { readdirSync, readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { startHost } from '@electron/host'
import type { Host } from '@electron/host'
import { builderConfig } from '@electron/tools/builderConfig'
import { electronProblem } from '@electron/tools/electronVersion'
import { heldRows } from '../../harness/heldBy'
import { enter } from '../../harness/hostClient'

const text = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8')

/** True where a file holds this title, or a title of a table of cases that becomes it. */
function holds(source: string, title: string): boolean {
  if (source.includes(title)) return true
  return [...source.matchAll(/'([^'\n]*)%[sj]([^'\n]*)'/g)].some(([, before = '', after = '']) => {
    if (before.length < 3 || !title.startsWith(before) || !title.endsWith(after)) return false
    return source.includes(`'${title.slice(before.length, title.length - after.length)}'`)
  })
}

/** Where a package comes from where the lock file does not say otherwise. */
const REGISTRY = 'https://registry.npmjs.org/'
/** Packages that run a script of their own at their install; look at one before it goes in here. */
const INSTALL_SCRIPTS = ['electron-winstaller', 'esbuild']

describe('the pages on security', () => {
  const rows = [...heldRows(text('DEVELOPERS.md')), ...heldRows(text('docs/security.md'))]

  it('name tests that are there', () => {
    const named = rows.flatMap((row) => row.tests)
    expect(named.length).toBeGreaterThan(45)
    for (const { file, title } of named) expect([file, title, holds(text(file), title)]).toEqual([file, title, true])
  })

  it('leave no item without a test, and none of Electron’s twenty out', () => {
    for (const { what, tests } of rows) expect([what, tests.length > 0]).toEqual([what, true])
    expect(rows.filter((row) => row.section === 'Security')).toHaveLength(20)
  })
})

describe('the admission to the loopback host', () => {
  it('compares secrets in constant time and in no other way', () => {
    const source = text('electron/host/admission.ts')
    expect(source).toContain('timingSafeEqual(digest(a), digest(b))')
    expect(source.match(/(?:token|session)\s*(?:===|!==|==|!=)|(?:===|!==)\s*this\.(?:token|session)/g)).toBeNull()
    expect(source.match(/sameSecret\(/g)).toHaveLength(3)
  })
})

describe('the package', () => {
  it('names an Electron that its makers still look after', () => {
    // Electron’s documentation, "Release timelines": the three newest stable major versions (from memory).
    expect(electronProblem('45.4.1', '45.5.0')).toBeNull()
    expect(electronProblem('43.0.0', '45.5.0')).toBeNull()
    expect(electronProblem('42.9.9', '45.5.0')).toContain('42.9.9')
    const { packages } = JSON.parse(text('package-lock.json')) as { packages: Record<string, { version?: string }> }
    expect(Number(packages['node_modules/electron']?.version?.split('.')[0])).toBeGreaterThanOrEqual(45)
  })
})

describe('what the program is made from', () => {
  interface Locked { resolved?: string; integrity?: string; hasInstallScript?: boolean; link?: boolean }
  const { packages } = JSON.parse(text('package-lock.json')) as { packages: Record<string, Locked> }
  const locked = Object.entries(packages).filter(([path]) => path !== '')

  it('comes from the public registry, each with its checksum', () => {
    expect(locked.length).toBeGreaterThan(500)
    const strange = locked.filter(([, { resolved, integrity, link }]) =>
      link === true || !(resolved ?? REGISTRY).startsWith(REGISTRY) || !integrity?.startsWith('sha512-'))
    expect(strange.map(([path]) => path)).toEqual([])
  })

  it('runs a script of its own at its install in the few places that are known', () => {
    const running = locked.filter(([, each]) => each.hasInstallScript).map(([path]) => path.split('node_modules/').at(-1))
    expect([...new Set(running)].sort()).toEqual(INSTALL_SCRIPTS)
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
      enableCookieEncryption: false,
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

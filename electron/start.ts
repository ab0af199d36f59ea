/**
 * `npm start`: the desktop window where Electron and a display can be had; else the same app on a
 * loopback address for the browser.
 */
import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'
import { findDesktop } from './desktopBinary'
import { ensureBuilt } from './freshBuild'
import { startAtUsualPort, startHost, USUAL_PORT } from './host'
import { openBrowser } from './openBrowser'
import { createDispatch, createTable, LIBRARY_VARIABLE, libraryFolder, ProfileLibrary } from './services'
import { START_HELP, startOptions } from './startOptions'
import type { StartOptions } from './startOptions'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

/** A window that ends with an error so soon never stood; the browser is tried then. */
const STILLBORN_MS = 15_000

const PORT_TAKEN = `Port ${USUAL_PORT} is taken (by another Squatbench, maybe), so another one is used.`

async function main(options: StartOptions): Promise<void> {
  ensureBuilt(ROOT)
  const library = libraryFolder(options.library)
  const desktop = options.browser ? null : findDesktop()
  if (desktop?.kind === 'binary') {
    const ended = await runDesktop(desktop.path, library)
    if (ended !== 'stillborn') return
    console.log('The desktop window could not be started, so Squatbench serves your browser.')
  } else if (desktop !== null) {
    console.log(`No desktop window (${desktop.why}), so Squatbench serves your browser.`)
  }
  await serve(options, library)
}

function runDesktop(binary: string, library: string): Promise<'ended' | 'stillborn'> {
  const startedMs = performance.now()
  const child = spawn(binary, [ROOT], { stdio: 'inherit', env: { ...process.env, [LIBRARY_VARIABLE]: library } })
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal))
  return new Promise((done) => {
    child.on('error', () => done('stillborn'))
    child.on('exit', (code) => {
      const stillborn = code !== 0 && code !== null && performance.now() - startedMs < STILLBORN_MS
      done(stillborn ? 'stillborn' : 'ended')
    })
  })
}

async function serve(options: StartOptions, folder: string): Promise<void> {
  const library = new ProfileLibrary({ folder, newId: randomUUID })
  const table = createTable({ library, version: ownVersion(), transport: 'host', printPdf: null })
  const served = { dispatch: createDispatch(table), pageFolder: join(ROOT, 'out', 'renderer'), libraryId: library.id }
  const { host, usual } = options.port === null
    ? await startAtUsualPort(served)
    : { host: await startHost({ ...served, port: options.port }), usual: true }
  if (!usual) console.log(`${PORT_TAKEN} What a browser keeps unwritten from before it finds at that port only.`)
  console.log(`Squatbench is at ${host.address}\nLibrary: ${folder}\nCtrl-C ends it.`)
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => void host.close().then(() => process.exit(0)))
  }
  if (options.open) openBrowser(host.address)
}

function ownVersion(): string {
  const text = readFileSync(join(ROOT, 'package.json'), 'utf8')
  return z.object({ version: z.string() }).parse(JSON.parse(text)).version
}

try {
  const options = startOptions(process.argv.slice(2))
  if (options.help) console.log(START_HELP)
  else await main(options)
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}

/**
 * `npm start`: the desktop window where Electron and a display can be had; else the same app on a
 * loopback address for the browser.
 */
import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'
import { fetchBinary } from './desktop/fetchBinary'
import { findDesktop, thisMachine } from './desktop/findDesktop'
import type { Desktop } from './desktop/findDesktop'
import { runDesktop } from './desktop/runDesktop'
import { ensureBuilt } from './freshBuild'
import { startAtUsualPort, startHost, USUAL_PORT } from './host'
import { openBrowser } from './openBrowser'
import { createDispatch, createTable, LIBRARY_VARIABLE, libraryFolder, ProfileLibrary } from './services'
import { START_HELP, startOptions } from './startOptions'
import type { StartOptions } from './startOptions'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

const PORT_TAKEN = `Port ${USUAL_PORT} is taken (by another Squatbench, maybe), so another one is used.`

async function main(options: StartOptions): Promise<void> {
  ensureBuilt(ROOT)
  const library = libraryFolder(options.library)
  if (options.browser) return serve(options, library)
  const desktop = await desktopWindow(options)
  if (desktop.kind === 'none') {
    console.log(`No desktop window (${desktop.why}), so Squatbench serves your browser.`)
    return serve(options, library)
  }
  const environment = { ...process.env, [LIBRARY_VARIABLE]: library }
  const ended = await runDesktop({ binary: desktop.path, args: [ROOT], environment })
  if (ended.kind === 'died') {
    throw new Error(`The desktop window ended by itself (${ended.why}). What was written down is safe; start again to go on.`)
  }
  if (ended.kind === 'stillborn') {
    console.log(`The desktop window could not be started (${ended.why}), so Squatbench serves your browser.`)
    await serve(options, library)
  }
}

/** The binary to run, fetched first where it has to be. */
async function desktopWindow(options: StartOptions): Promise<Exclude<Desktop, { kind: 'unfetched' }>> {
  const machine = thisMachine()
  const found = findDesktop(machine)
  if (found.kind !== 'unfetched') return found
  const why = await fetchBinary({
    folder: found.folder, environment: machine.environment, again: options.fetch, say: console.log,
  })
  if (why !== null) return { kind: 'none', why }
  const fetched = findDesktop(machine)
  return fetched.kind === 'unfetched' ? { kind: 'none', why: 'Electron’s binary is not where its package says' } : fetched
}

async function serve(options: StartOptions, folder: string): Promise<void> {
  const library = new ProfileLibrary({ folder, newId: randomUUID })
  const table = createTable({ library, version: ownVersion(), transport: 'host', printPdf: null, saveTables: null })
  const served = { dispatch: createDispatch(table), pageFolder: join(ROOT, 'out', 'renderer'), libraryId: library.id }
  const { host, usual } = options.port === null
    ? await startAtUsualPort(served)
    : { host: await startHost({ ...served, port: options.port }), usual: true }
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => void host.close().then(() => process.exit(0)))
  }
  if (!usual) console.log(`${PORT_TAKEN} What a browser keeps unwritten from before it finds at that port only.`)
  console.log(`Squatbench is at ${host.address}\nLibrary: ${folder}\nCtrl-C ends it.`)
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

/** The built desktop program, its main bundle and its preload, run in a `vm` on the strict stand-in for Electron. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import vm from 'node:vm'
import { standIn } from '../harness/electron/standIn'
import type { StandIn, StandInOptions, StandInWindow } from '../harness/electron/standIn'

const at = (path: string): string => fileURLToPath(new URL(`../../out/${path}`, import.meta.url))
const MAIN = at('main/index.js')
const PRELOAD = at('preload/index.cjs')

export interface Started extends StandIn {
  folder: string
  library: string
  /** What it printed. */
  printed: string[]
  /** The window once it stands. */
  window(): Promise<StandInWindow>
  /** Runs the preload for a window and gives what it puts on the page. */
  bridgeIn(window: StandInWindow): Record<string, unknown>
  remove(): void
}

export interface StartOptions extends Partial<StandInOptions> {
  /** Runs before the program, for instance to leave preferences in the library. */
  before?: (folder: string) => void
}

/** Starts the built program. The caller removes it. */
export async function startBuilt({ before, ...options }: StartOptions = {}): Promise<Started> {
  if (!existsSync(MAIN)) throw new Error('The app is not built: npm run build')
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-desktop-'))
  const library = join(folder, 'library')
  before?.(folder)
  const system = Object.getOwnPropertyDescriptor(process, 'platform') as PropertyDescriptor
  const variable = process.env['SQUATBENCH_LIBRARY']
  const log = console.log
  const printed: string[] = []
  process.env['SQUATBENCH_LIBRARY'] = library
  if (options.platform) Object.defineProperty(process, 'platform', { ...system, value: options.platform })
  console.log = (...told: unknown[]) => void printed.push(told.join(' '))
  const electron = standIn({ home: folder, ...options })
  await evaluate(MAIN, electron.main)
  return {
    ...electron,
    folder,
    library,
    printed,
    window: async () => {
      for (let turn = 0; turn < 2_000; turn += 1) {
        const found = electron.windows()[0]
        if (found?.shown) return found
        await new Promise((done) => setTimeout(done, 1))
      }
      throw new Error('no window is shown')
    },
    bridgeIn: (window) => {
      electron.state.preloadIn = window.webContents
      evaluatePreload(electron)
      return electron.state.world
    },
    remove: () => {
      console.log = log
      Object.defineProperty(process, 'platform', system)
      if (variable === undefined) delete process.env['SQUATBENCH_LIBRARY']
      else process.env['SQUATBENCH_LIBRARY'] = variable
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Runs a bundle that may import Node's own modules and `electron`, and nothing else. */
async function evaluate(file: string, electron: Record<string, unknown>): Promise<void> {
  const bundle = new vm.SourceTextModule(readFileSync(file, 'utf8'), {
    identifier: file,
    initializeImportMeta: (meta) => Object.assign(meta, {
      url: pathToFileURL(file).href, filename: file, dirname: join(file, '..'),
    }),
  })
  await bundle.link(async (name: string) => {
    const exported = name === 'electron' ? electron : await nodeModule(name)
    return new vm.SyntheticModule(Object.keys(exported), function set(this: vm.SyntheticModule) {
      for (const [key, value] of Object.entries(exported)) this.setExport(key, value)
    })
  })
  await bundle.evaluate()
}

async function nodeModule(name: string): Promise<Record<string, unknown>> {
  const bare = name.replace(/^node:/, '')
  if (!process.getBuiltinModule(bare)) throw new Error(`the program asks for “${name}”, which is not packaged with it`)
  return await import(/* @vite-ignore */ name) as Record<string, unknown>
}

/** What a sandboxed preload may require (Electron's documentation, "Process sandboxing"). */
const MAY_REQUIRE = ['electron', 'events', 'timers', 'url']

/** Runs the preload in a context of its own, with nothing of Node but what a sandboxed one has. */
function evaluatePreload({ preload }: StandIn): void {
  const require = (name: string): unknown => {
    if (!MAY_REQUIRE.includes(name)) throw new Error(`module not found: ${name}`)
    return name === 'electron' ? preload : process.getBuiltinModule(name)
  }
  const wrapped = vm.runInNewContext(`(function (require, exports, module) {${readFileSync(PRELOAD, 'utf8')}\n})`, {}, {
    filename: PRELOAD,
  }) as (...args: unknown[]) => void
  const module = { exports: {} }
  wrapped(require, module.exports, module)
}

/** Builds the app where the built one is missing or older than what it is made from. */
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

const SOURCES = ['electron', 'renderer', 'shared-core', 'seeds', 'electron.vite.config.ts', 'package.json']
const BUILT = ['out/main/index.js', 'out/preload/index.cjs', 'out/renderer/index.html']

/** @throws Error where the build fails; its output was shown then */
export function ensureBuilt(root: string): void {
  const files = BUILT.map((file) => join(root, file))
  if (files.every(existsSync)) {
    const builtMs = Math.min(...files.map((file) => statSync(file).mtimeMs))
    if (SOURCES.every((source) => newestMs(join(root, source)) <= builtMs)) return
  }
  console.log('Building the app.')
  const command = join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js')
  const done = spawnSync(process.execPath, [command, 'build'], { cwd: root, encoding: 'utf8' })
  if (done.status === 0) return
  console.error(done.stdout, done.stderr)
  throw new Error('The app could not be built; the lines above say why.')
}

function newestMs(path: string): number {
  if (!existsSync(path)) return 0
  const own = statSync(path)
  if (!own.isDirectory()) return own.mtimeMs
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestMs(join(path, name))), 0)
}

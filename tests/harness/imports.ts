/** Who imports from whom: every import of shared-core, by room, with those that lead up or out. */
import { readdirSync, readFileSync } from 'node:fs'
import { builtinModules } from 'node:module'
import { join, posix } from 'node:path'
import { fileURLToPath } from 'node:url'
import { mayImport } from '../../floors'

const CORE = fileURLToPath(new URL('../../shared-core', import.meta.url))

/** Packages that shared-core may use: pure ones. */
const PURE = ['zod', '@noble/hashes', 'papaparse']

export interface Imports { files: number; between: number; wrong: string[] }

/** Reads every file of shared-core. */
export function importsOfCore(): Imports {
  const files = readdirSync(CORE, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/')).filter((file) => file.endsWith('.ts'))
  const found: Imports = { files: files.length, between: 0, wrong: [] }
  for (const file of files) {
    const room = file.split('/')[0] ?? ''
    for (const target of targetsIn(readFileSync(join(CORE, file), 'utf8'))) {
      const other = roomOf(file, target)
      if (other === null ? !isPure(target) : !mayImport(room, other)) found.wrong.push(`${file} imports ${target}`)
      else if (other !== null && other !== room) found.between += 1
    }
  }
  return found
}

const targetsIn = (text: string): string[] =>
  [...text.matchAll(/(?:\bfrom\s+|\bimport\s*\(\s*|^import\s+)'([^']+)'/gm)].map(([, target = '']) => target)

/** The room of shared-core that an import leads to, or null for a package. */
function roomOf(file: string, target: string): string | null {
  if (target.startsWith('@core/')) return target.split('/')[1] ?? ''
  if (!target.startsWith('.')) return null
  return posix.join(posix.dirname(file), target).split('/')[0] ?? ''
}

function isPure(target: string): boolean {
  if (target.startsWith('node:') || builtinModules.includes(target)) return false
  return PURE.some((name) => target === name || target.startsWith(`${name}/`))
}

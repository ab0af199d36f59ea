/** What Electron's own typings say: events of its classes, options of its windows and dialogs, roles of menu items. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

const folder = dirname(createRequire(import.meta.url).resolve('electron/package.json'))
const text = readFileSync(join(folder, 'electron.d.ts'), 'utf8')

/** The lines of a class or interface, without those of its neighbours. */
function block(name: string): string {
  const start = ['class', 'interface'].map((kind) => text.indexOf(`\n  ${kind} ${name} `)).find((at) => at >= 0)
  if (start === undefined) throw new Error(`Electron’s typings have no “${name}”`)
  return text.slice(start, text.indexOf('\n  }\n', start))
}

const known = new Map<string, ReadonlySet<string>>()
function namesIn(name: string, pattern: RegExp): ReadonlySet<string> {
  const key = `${name} ${pattern.source}`
  const names = known.get(key) ?? new Set([...block(name).matchAll(pattern)].map(([, found]) => found ?? ''))
  known.set(key, names)
  return names
}

/** Names of the events that a class emits. */
export const eventsOf = (name: string): ReadonlySet<string> => namesIn(name, /^ {4}on\(event: '([^']+)'/gm)

/** Names of the members of an interface or class. */
export const membersOf = (name: string): ReadonlySet<string> =>
  namesIn(name, /^ {4}(?:static )?(?:readonly )?(\w+)(?:\??: |\(|<)/gm)

/** Roles that a menu item may have. */
export const ROLES: ReadonlySet<string> = new Set(
  [.../^ {4}role\?: \((.*)\);$/m.exec(block('MenuItemConstructorOptions'))?.[1]?.matchAll(/'(\w+)'/g) ?? []]
    .map(([, role]) => role ?? ''),
)

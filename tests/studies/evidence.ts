/** Writes the tables of the camera's studies into their page, each between its own two comment lines. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'

const PAGE = fileURLToPath(new URL('../../docs/evidence/camera.md', import.meta.url))

const HEAD = `# Evidence: ride heights from pictures and film

Each table was written by the command above it.
`

/** Replaces (or adds) one study's part of the page. */
export function writeEvidence(study: string, command: string, text: string): void {
  const open = `<!-- ${study} -->`
  const close = `<!-- end of ${study} -->`
  const part = `${open}\n\n## \`${command}\`\n\n${text}\n\n${close}`
  const page = existsSync(PAGE) ? readFileSync(PAGE, 'utf8') : HEAD
  const from = page.indexOf(open)
  const to = page.indexOf(close)
  const next = from >= 0 && to > from
    ? page.slice(0, from) + part + page.slice(to + close.length)
    : `${page.trimEnd()}\n\n${part}\n`
  mkdirSync(dirname(PAGE), { recursive: true })
  writeFileSync(PAGE, next)
}

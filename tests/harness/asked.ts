/** A figure out of a command's own output. */
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { Figure } from './figure'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

export interface Said { code: number | null; text: string }

/** A line of the page, and the command that gives its figure. */
export interface Asked {
  what: string
  command: readonly string[]
  figure: (said: Said) => string | null
  good: (said: Said) => boolean
}

/** True where the command ended well. */
export const ended = ({ code }: Said): boolean => code === 0

/** Runs the command and reads its figure; a command that gives none has failed. */
export function askedFigure({ what, command, figure, good }: Asked): Figure {
  console.log(`  ${command.join(' ')}`)
  const [program = '', ...rest] = command
  const done = spawnSync(program, rest, {
    cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 28, shell: process.platform === 'win32',
  })
  const said = { code: done.status, text: `${done.stdout}\n${done.stderr}` }
  const found = figure(said)
  return { what, figure: found ?? 'no figure', good: found !== null && good(said) }
}

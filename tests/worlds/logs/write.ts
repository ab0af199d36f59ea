/** Writes the twelve kinds of log as files. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { KINDS } from './kinds'

const folder = join(import.meta.dirname, 'files')
mkdirSync(folder, { recursive: true })
for (const { name, bytes } of KINDS) writeFileSync(join(folder, name), bytes)

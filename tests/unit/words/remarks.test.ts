/** Every remark that the core can make has its words, and every word has its remark. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { en } from '@renderer/words/en'

const ROOM = fileURLToPath(new URL('../../../shared-core', import.meta.url))

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name)
    return entry.isDirectory() ? sources(path) : [readFileSync(path, 'utf8')]
  })
}

/** Codes as they are made: `remark('code', 'note'`, or an object with code and severity. */
function codesOfCore(): Set<string> {
  const text = sources(ROOM).join('\n')
  const called = text.matchAll(/(?:remark|Remark|say)\((?:[^']*\? '[a-zA-Z]+' : )?'([a-zA-Z]+)',\s*'(?:note|warning|stop)'/g)
  const ternary = text.matchAll(/emark\([^']*\? '([a-zA-Z]+)' : '([a-zA-Z]+)', '(?:note|warning|stop)'/g)
  const written = text.matchAll(/code: '([a-zA-Z]+)',\s*severity/g)
  return new Set([...called, ...ternary, ...written].flatMap(([, ...codes]) => codes))
}

describe('remarks in words', () => {
  const codes = codesOfCore()

  it('finds the codes of the core', () => {
    expect(codes.size).toBeGreaterThan(40)
  })

  it.each([...codes].sort())('has words for %s', (code) => {
    expect(Object.keys(en.remarks)).toContain(code)
  })
})

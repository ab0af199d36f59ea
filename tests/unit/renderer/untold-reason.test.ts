/** Whatever the core finds missing is named in the builder's words. */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { KNOWN_REASONS, untoldKey } from '@renderer/parts/untoldReason'
import { en } from '@renderer/words/en'

const core = new URL('../../../shared-core/', import.meta.url)
const sources = ['aero', 'airflow', 'track'].flatMap((room) => readdirSync(new URL(`${room}/`, core))
  .filter((name) => name.endsWith('.ts')).map((name) => readFileSync(new URL(`${room}/${name}`, core), 'utf8')))
/** Every reason written out where something is missing: as an argument, a field or a named text. */
const WRITTEN = [
  /untold(?:Claim)?\('missing',\s*'([^']+)'/g, /\b(?:none|nothing|untold)\('([^' ]+ [^']+)'/g, /because: '([^']+)'/g,
  /const LONE = '([^']+)'/g,
]
const reasons = [...new Set(sources.flatMap((text) => WRITTEN.flatMap((each) =>
  [...text.matchAll(each)].map(([, reason]) => reason!))))]

describe('the reasons of what can’t be told', () => {
  it('are all named', () => {
    expect(reasons.length).toBeGreaterThan(10)
    expect(reasons.filter((each) => untoldKey(each) === null)).toEqual([])
  })
  it('have a sentence for each name, and no sentence stands unused', () => {
    const named = new Set(KNOWN_REASONS.map(untoldKey))
    expect([...named].sort()).toEqual(Object.keys(en.parts.because).sort())
  })
  it('fall back on the kind of reason where a new one has no name', () => {
    expect(untoldKey('something new')).toBeNull()
  })
})

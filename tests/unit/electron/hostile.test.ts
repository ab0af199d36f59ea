/** Inputs made to hurt: each is refused in words with a path, quickly, and nothing is written outside the library. */
import { randomUUID } from 'node:crypto'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { openExchangeText } from '@core/schema'
import { MAX_EXCHANGE_CHARACTERS } from '@core/schema/migrate'
import type { ServiceError } from '@core/services'
import { bodyLimit } from '@electron/host/body'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import type { Dispatch } from '@electron/services'
import { fuzzFigures } from '../../harness/fuzz/run'
import { sampleChassis, sampleExchange, sampleSquat } from '../../harness/sample'

let around: string
let dispatch: Dispatch

beforeEach(async () => {
  around = await mkdtemp(join(tmpdir(), 'squatbench-hostile-'))
  const library = new ProfileLibrary({ folder: join(around, 'library'), newId: randomUUID })
  dispatch = createDispatch(createTable({ library, version: '0.0.0', transport: 'host', printPdf: null, saveTables: null }))
})

afterEach(() => rm(around, { recursive: true, force: true }))

async function refusal(name: string, input: unknown): Promise<ServiceError> {
  const startMs = performance.now()
  const answer = await dispatch(name, input)
  expect(performance.now() - startMs).toBeLessThan(1000)
  expect(answer.ok).toBe(false)
  return (answer as { error: ServiceError }).error
}

const importing = (text: string): Promise<ServiceError> => refusal('exchange.import', { text })

describe('an exchange file made to hurt', () => {
  it('with two sessions of one id is refused at the second one', async () => {
    const file = sampleExchange('mule', 2)
    const [first] = file.sessions
    const error = await importing(JSON.stringify({ ...file, sessions: [first, { ...first, name: 'Another' }] }))
    expect(error.code).toBe('badInput')
    expect(error.problems).toEqual([
      { where: 'sessions[1].id', what: expect.stringContaining('sessions[0]') as string, code: 'twin' },
    ])
  })

  it.each([
    ['lists nested a hundred thousand deep', '['.repeat(100_000) + ']'.repeat(100_000)],
    ['a note nested as deep', `{"format":"squatbench-exchange","schemaVersion":1,"sessions":[],"chassis":{"schemaVersion":1,"note":${
      '['.repeat(100_000)}${']'.repeat(100_000)}}}`],
    ['an opening without an end', '{"a":'.repeat(100_000)],
    ['a number of a million digits', '9'.repeat(1_000_000)],
    ['nothing', ''],
  ])('of %s is refused with a path', async (_title, text) => {
    const { code, problems } = await importing(text)
    expect(code).toBe('badInput')
    expect(problems.length).toBeGreaterThan(0)
    for (const { where } of problems) expect(where).not.toBe('')
  })

  it.each(['1e999', '-1e999', '1e308', 'NaN', '"1"', 'null', '{}'])('with the wheelbase %s is refused at it', async (value) => {
    const text = JSON.stringify(sampleExchange('mule', 0)).replace('"wheelbaseMm":{"value":257', `"wheelbaseMm":{"value":${value}`)
    const { code, problems } = await importing(text)
    expect(code).toBe('badInput')
    // NaN is no JSON at all; all else is named by its path.
    expect(problems[0]?.where).toBe(value === 'NaN' ? '(whole)' : 'chassis.wheelbaseMm.value')
  })

  it("longer than anyone's is refused before it is parsed", () => {
    expect(openExchangeText('['.repeat(MAX_EXCHANGE_CHARACTERS + 1))).toMatchObject({
      kind: 'refused', problems: [{ where: '(whole)', what: expect.stringContaining('too long') as string }],
    })
    expect(bodyLimit('exchange.import')).toBeLessThan(2 ** 29)
  })

  it('of many small lists, or of one key many times, is answered in time', async () => {
    await importing(`[${'[],'.repeat(300_000)}[]]`)
    await importing(`{${'"a":1,'.repeat(300_000)}"a":1}`)
  })

  it('with prototype keys changes nothing but its own answer', async () => {
    const text = JSON.stringify(sampleExchange('mule', 1)).replace('"chassis":{', '"__proto__":{"polluted":1},"chassis":{')
    await dispatch('exchange.import', { text })
    expect('polluted' in {}).toBe(false)
    const inside = JSON.stringify(sampleExchange('mule', 1)).replace('"chassis":{', '"chassis":{"constructor":{},')
    expect((await importing(inside)).problems[0]?.where).toBe('chassis')
  })
})

describe('names', () => {
  it.each(['..', '../mule', 'a/b', 'a\\b', '/etc', 'C:', '.', '', 'MULE', 'm\u0000', 'ümlaut', '-a', 'a'.repeat(65)])(
    'the id %j never becomes a path', async (chassisId) => {
      for (const name of ['library.open', 'library.removeChassis', 'library.revisions', 'exchange.export']) {
        const error = await refusal(name, { chassisId })
        expect([error.code, error.problems[0]?.where]).toEqual(['badInput', 'chassisId'])
      }
      expect(await readdir(around)).toEqual([])
    },
  )

  it.each([
    '☠ "<script>" \'; DROP', '../../up', 'CON', 'nul.txt', '🚗🏁', 'العربية', '\u202eright to left', 'x'.repeat(200), ' . ', '%2e%2e',
  ])('the typed name %j is kept as typed, and comes out as a usable file name', async (name) => {
    const saved = await dispatch('library.saveChassis', { chassis: sampleChassis('mule', name), baseRevision: 0 })
    expect(saved).toEqual({ ok: true, value: { kind: 'saved', revision: 1 } })
    const opened = await dispatch('library.open', { chassisId: 'mule' }) as { value: { chassis: { name: string } } }
    expect(opened.value.chassis.name).toBe(name.trim())
    const exported = await dispatch('exchange.export', { chassisId: 'mule' }) as { value: { fileName: string } }
    expect(exported.value.fileName).toMatch(/^[\p{L}\p{M}\p{N}_-][\p{L}\p{M}\p{N}._-]{0,80}\.json$/u)
  })

  it('may be the same twice: each chassis and session stays its own', async () => {
    for (const id of ['one', 'two']) {
      await dispatch('library.saveChassis', { chassis: sampleChassis(id, 'Same'), baseRevision: 0 })
      for (const session of ['a', 'b']) {
        await dispatch('library.saveSession', { session: sampleSquat(id, session, [1], 'Same'), baseRevision: 0 })
      }
    }
    const listed = await dispatch('library.list', {}) as { value: { chassis: { name: string; sessionNames: string[] }[] } }
    expect(listed.value.chassis.map((each) => [each.name, ...each.sessionNames])).toEqual([
      ['Same', 'Same', 'Same'], ['Same', 'Same', 'Same'],
    ])
  })
})

describe('a short run of the fuzzer', () => {
  it('finds nothing', async () => {
    const figures = await fuzzFigures(2_000, 20_310_504)
    expect(figures.map((each) => [each.what, each.good])).toEqual(figures.map((each) => [each.what, true]))
    expect(figures).toHaveLength(4)
  })
})

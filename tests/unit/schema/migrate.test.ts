import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import {
  MIGRATION_STEPS, openChassis, openExchange, openExchangeText, openSession, readJson, SCHEMA_VERSION,
} from '@core/schema'
import type { Exchange, MigrationStep, MigrationSteps } from '@core/schema'
import { someChassis, someExchange, someSession } from '../../harness/documents'

const FIXTURES = fileURLToPath(new URL('./fixtures', import.meta.url))
const fixture = (version: number, name: string): string =>
  readFileSync(join(FIXTURES, `version-${version}`, name), 'utf8')

describe('a file of each version up to this one', () => {
  const versions = Array.from({ length: SCHEMA_VERSION }, (_, index) => index + 1)

  it.each(versions)('of version %i is kept as a fixture and opens', (version) => {
    expect(existsSync(join(FIXTURES, `version-${version}`))).toBe(true)
    const opened = openExchangeText(fixture(version, 'exchange.json'))
    expect(opened).toMatchObject({ kind: 'opened', fromVersion: version })
    if (opened.kind !== 'opened') return
    expect(new Set(opened.document.sessions.map((session) => session.kind))).toEqual(new Set(['squat', 'airflow', 'track']))
    expect(opened.document.schemaVersion).toBe(SCHEMA_VERSION)
  })

  it('has no fixture of a version nobody knows, and one step between each two', () => {
    expect(readdirSync(FIXTURES).sort()).toEqual(versions.map((version) => `version-${version}`))
    for (const steps of Object.values(MIGRATION_STEPS) as unknown[][]) expect(steps).toHaveLength(SCHEMA_VERSION - 1)
  })
})

/** As if there were one version more than today's, and the first had another key for the name. */
const renamed: MigrationStep = ({ title, ...rest }) => ({ ...rest, name: title })
const unchanged: MigrationStep = (document) => document
const others = Array.from({ length: SCHEMA_VERSION - 1 }, () => unchanged)
const steps: MigrationSteps = {
  chassis: [renamed, ...others], session: [unchanged, ...others], exchange: [unchanged, ...others],
}

describe('walking the steps', () => {
  it('goes from the version found to the newest on a copy', () => {
    const { name, ...rest } = someChassis('a')
    const old = { ...rest, schemaVersion: 1, title: name }
    const before = structuredClone(old)
    const seen: number[] = []
    const watched: MigrationSteps = {
      ...steps,
      chassis: steps.chassis.map((step) => (document) => {
        seen.push(document['schemaVersion'] as number)
        return step(document)
      }),
    }
    // What comes out is checked by today's schema, which does not know the version after it: it must say so.
    expect(openChassis(old, watched)).toMatchObject({
      kind: 'refused', problems: [{ where: 'schemaVersion' }], total: 1,
    })
    expect(seen).toEqual(Array.from({ length: SCHEMA_VERSION }, (_, index) => index + 1))
    expect(old).toEqual(before)
    expect(openChassis(old, { ...steps, chassis: steps.chassis.slice(0, -1) })).toEqual({
      kind: 'opened', document: someChassis('a'), fromVersion: 1,
    })
  })

  it('starts in the middle for a file of the middle', () => {
    const opened = openChassis({ ...someChassis('a'), schemaVersion: 2 }, steps)
    expect(opened).toMatchObject({ kind: 'refused', problems: [{ where: 'schemaVersion' }], total: 1 })
  })

  it('refuses where a step fails, and says which version it was', () => {
    const broken: MigrationSteps = { ...steps, chassis: [() => { throw new Error('no title') }, ...steps.chassis.slice(1)] }
    const opened = openChassis({ schemaVersion: 1 }, broken)
    expect(opened.kind === 'refused' && opened.problems[0]?.what).toContain('of version 1 could not be brought forward')
  })
})

describe('opening', () => {
  it('takes what fits', () => {
    expect(openChassis(someChassis('a'))).toEqual({ kind: 'opened', document: someChassis('a'), fromVersion: SCHEMA_VERSION })
    expect(openSession(someSession('a', 'q'))).toMatchObject({ kind: 'opened', fromVersion: SCHEMA_VERSION })
    expect(openExchange(someExchange('a', 3))).toMatchObject({ kind: 'opened' })
  })

  it.each([null, 5, 'x', [], true])('refuses %j, which is no document', (raw) => {
    expect(openChassis(raw)).toMatchObject({ kind: 'refused', problems: [{ where: '(whole)' }] })
    expect(openExchange(raw)).toMatchObject({ kind: 'refused', problems: [{ where: '(whole)' }] })
  })

  it.each([undefined, null, 0, -1, 1.5, '1', NaN])('refuses the version %j', (schemaVersion) => {
    expect(openChassis({ ...someChassis('a'), schemaVersion })).toMatchObject({
      kind: 'refused', problems: [{ where: 'schemaVersion' }],
    })
  })

  it('tells a newer version from a bad file, at every depth of an exchange file', () => {
    const file = someExchange('a', 2)
    const version = SCHEMA_VERSION + 1
    const newer = { kind: 'newer', version }
    expect(openChassis({ ...file.chassis, schemaVersion: version })).toEqual(newer)
    expect(openExchange({ ...file, schemaVersion: version })).toEqual(newer)
    expect(openExchange({ ...file, chassis: { schemaVersion: version } })).toEqual(newer)
    expect(openExchange({ ...file, sessions: [file.sessions[0], { schemaVersion: version }] })).toEqual(newer)
  })

  it('names the place inside an exchange file', () => {
    const file = someExchange('a', 2)
    expect(openExchange({ ...file, format: 'other' })).toMatchObject({ problems: [{ where: 'format' }] })
    expect(openExchange({ ...file, chassis: 5 })).toMatchObject({ problems: [{ where: 'chassis' }] })
    expect(openExchange({ ...file, sessions: 5 })).toMatchObject({ problems: [{ where: 'sessions' }] })
    expect(openExchange({ ...file, sessions: [file.sessions[0], {}] }))
      .toMatchObject({ problems: [{ where: 'sessions[1].schemaVersion' }] })
    const far = structuredClone(file)
    if (far.sessions[1]?.kind === 'squat') far.sessions[1].readings[3]!.shownMm = 1e9
    expect(openExchange(far)).toMatchObject({ problems: [{ where: 'sessions[1].readings[3].shownMm' }] })
  })
})

describe('version 2', () => {
  it('opens what version 1 held as it was, and leaves what it did not ask unsaid', () => {
    const old = JSON.parse(fixture(1, 'exchange.json')) as Exchange
    const opened = openExchange(old)
    expect(opened.kind === 'opened' && opened.document).toEqual({
      ...old, schemaVersion: 2, chassis: { ...old.chassis, schemaVersion: 2 },
      sessions: old.sessions.map((each) => ({ ...each, schemaVersion: 2 })),
    })
  })

  it('holds where the tray touches, how a blown car is held and a load put right', () => {
    const opened = openExchangeText(fixture(2, 'exchange.json'))
    if (opened.kind !== 'opened') throw new Error('the fixture opens')
    const { chassis, sessions } = opened.document
    expect(chassis.trayEnds).toEqual({
      front: { where: 'betweenAxles' }, rear: { where: 'beyondAxle', beyondMm: { value: 40, u: 3 } },
    })
    const runs = sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
    expect(runs.flatMap((run) => (run.kind === 'blower' ? [run.held] : []))).toEqual([{
      how: 'line', hookXMm: { value: -30, u: 5 }, hookHeightMm: { value: 35, u: 2 }, fallDeg: { value: 4, u: 1 },
      pullN: { value: 1.8, u: 0.1 },
    }])
    const placed = sessions.flatMap((each) => (each.kind === 'squat' ? each.steps.flatMap((step) => step.placed) : []))
    expect(placed.flatMap(({ corrections = [] }) => corrections)).toEqual([
      { was: { xMm: 0, yMm: -3 }, at: '2031-05-04T09:30:00.000Z', why: 'lay in the middle' },
    ])
  })
})

describe('text', () => {
  it('may begin with a byte order mark', () => {
    expect(readJson('\ufeff{"a":1}')).toEqual({ ok: true, value: { a: 1 } })
  })

  it.each(['', '{', 'NaN', '{"a":1}{', '['.repeat(100_000)])('that is no JSON is refused (%#)', (text) => {
    expect(openExchangeText(text)).toMatchObject({ kind: 'refused', problems: [{ where: '(whole)' }] })
  })
})

/** What is fuzzed: each target takes one case of a seed and says in words what is wrong, or null. */
import { randomUUID } from 'node:crypto'
import { mkdir, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { readHeader } from '@core/camera'
import { openExchangeText } from '@core/schema'
import { services, serviceError } from '@core/services'
import { isMapped, LogReader, proposeLayout, proposeMapping, regularise } from '@core/track'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import { sampleChassis, sampleExchange, sampleSquat } from '../sample'
import { STILL_BEGINNINGS } from '../../synthetic/stillBeginnings'
import { chance, mutateBytes, mutateText, mutateTree } from './mutate'
import type { Chance } from './mutate'

export interface Target {
  name: string
  /** Share of the cases. */
  share: number
  run(seed: number): Promise<string | null>
  /** After the last case: what was written where it must not be, or null. */
  end(): Promise<string | null>
}

const nothing = (): Promise<null> => Promise.resolve(null)

/** One case in so many is made up from nothing (fast-check); the others are mutated from valid ones. */
const MADE_UP = 5

const isMadeUp = (seed: number): boolean => seed % MADE_UP === 0

/** One value of an arbitrary, by the seed of the case. */
function makeUp<T>(arbitrary: fc.Arbitrary<T>, seed: number): T {
  const [value] = fc.sample(arbitrary, { seed, numRuns: 1 })
  return value as T
}

const ANYTHING = fc.anything({ withNullPrototype: true, withBigInt: false, maxDepth: 4 })
/** Documents whose keys are ours and whose values are anything. */
const OUR_KEYS = fc.constantFrom(
  'format', 'schemaVersion', 'chassis', 'sessions', 'id', 'name', 'readings', 'steps', 'value', 'u', 'kind', '__proto__',
)
const DOCUMENT = fc.dictionary(OUR_KEYS, fc.oneof(fc.jsonValue(), fc.constant('squatbench-exchange'), fc.constant(1)))
const TEXT = fc.oneof(fc.json(), DOCUMENT.map((each) => JSON.stringify(each)), fc.string({ unit: 'binary', maxLength: 300 }))
const BYTES = fc.uint8Array({ maxLength: 400 })
const CELL = fc.oneof(fc.double().map(String), fc.string({ maxLength: 8 }))
const TABLE = fc.array(fc.array(CELL, { maxLength: 6 }), { maxLength: 40 })

/** Prototype keys that took hold would show on every object. */
const polluted = (): string | null => ('polluted' in {} ? 'the prototype of all objects was changed' : null)

function exchangeProblem(text: string): string | null {
  const opening = openExchangeText(text)
  if (opening.kind !== 'refused') return polluted()
  const named = opening.problems.length > 0 && opening.problems.every(({ where, what }) => where !== '' && what !== '')
  return named ? polluted() : 'refused without a path and a reason'
}

/** Exchange files: small ones of our own and the whole demo. */
export function exchangeTarget(demoText: string): Target {
  const small = sampleExchange('mule', 2, 4)
  const smallText = JSON.stringify(small)
  const demo = JSON.parse(demoText) as unknown
  return {
    name: 'exchange files',
    share: 0.5,
    run: (seed) => {
      if (isMadeUp(seed)) return Promise.resolve(exchangeProblem(makeUp(TEXT, seed)))
      const some = chance(seed)
      const rare = some.int(0, 99)
      if (rare === 0) return Promise.resolve(exchangeProblem(JSON.stringify(mutateTree(demo, some))))
      if (rare === 1) return Promise.resolve(exchangeProblem(mutateText(demoText, some)))
      const text = rare < 50 ? mutateText(smallText, some) : JSON.stringify(mutateTree(small, some))
      return Promise.resolve(exchangeProblem(text))
    },
    end: nothing,
  }
}

const ID_NAMES = ['mule', '../mule', '..', 'con', 'a/b', '', 'mule\u0000', '__proto__', 'MULE', '.', 'x'.repeat(64)]
const SERVICE_NAMES = [...Object.keys(services), '__proto__', 'constructor', 'toString', '', 'library.', 'x'.repeat(5000)]

function exchangeText(some: Chance): string {
  const file = sampleExchange('guest', 2, 2)
  return some.int(0, 1) === 0 ? mutateText(JSON.stringify(file), some) : JSON.stringify(mutateTree(file, some))
}

function message(some: Chance): { name: string; input: unknown } {
  const name = some.pick(SERVICE_NAMES)
  const valid: Record<string, unknown> = {
    'library.open': { chassisId: some.pick(ID_NAMES) },
    'library.revisions': { chassisId: some.pick(ID_NAMES) },
    'library.removeChassis': { chassisId: some.pick(ID_NAMES) },
    'library.removeSession': { chassisId: some.pick(ID_NAMES), sessionId: some.pick(ID_NAMES) },
    'exchange.export': { chassisId: some.pick(ID_NAMES) },
    'library.saveChassis': { chassis: sampleChassis('mule'), baseRevision: some.int(0, 3) },
    'library.saveSession': { session: sampleSquat('mule', 's', [1, 2]), baseRevision: some.int(0, 3) },
    'exchange.import': { text: exchangeText(some) },
    'report.pdf': { html: '<p>' },
  }
  const input = Object.hasOwn(valid, name) ? valid[name] : {}
  return { name, input: some.int(0, 3) === 0 ? input : mutateTree(input, some) }
}

const madeUpMessage = (seed: number): { name: string; input: unknown } =>
  ({ name: chance(seed).pick(SERVICE_NAMES), input: makeUp(fc.oneof(ANYTHING, DOCUMENT), seed) })

/** Service messages against a real library, whose surroundings must stay empty. */
export async function messageTarget(): Promise<Target> {
  const around = await mkdtemp(join(tmpdir(), 'squatbench-fuzz-'))
  const folder = join(around, 'in', 'library')
  await mkdir(folder, { recursive: true })
  const library = new ProfileLibrary({ folder, newId: randomUUID })
  const dispatch = createDispatch(createTable({ library, version: '0.0.0', transport: 'host', printPdf: null, saveTables: null }))
  return {
    name: 'service messages',
    share: 0.2,
    run: async (seed) => {
      const { name, input } = isMadeUp(seed) ? madeUpMessage(seed) : message(chance(seed))
      const answer = await dispatch(name, input)
      if (answer.ok) return polluted()
      const error = serviceError.safeParse(answer.error)
      if (!error.success) return `${name}: the error does not fit its schema`
      if (error.data.code === 'badInput' && !error.data.problems.every(({ where }) => where !== '')) return `${name}: no path`
      if (error.data.code === 'badInput' && error.data.problems.length === 0) return `${name}: no problem is named`
      if (error.data.code === 'failed') return `${name}: ${error.data.message}`
      return polluted()
    },
    end: async () => {
      const outside = [...(await readdir(around)).filter((each) => each !== 'in'),
        ...(await readdir(join(around, 'in'))).filter((each) => each !== 'library')]
      await rm(around, { recursive: true, force: true })
      return outside.length === 0 ? null : `written outside the library: ${outside.join(', ')}`
    },
  }
}

const LOGS = [
  `time,ax,ay,az\n${Array.from({ length: 40 }, (_, i) => `${i / 100},0.1,${i % 7},9.81`).join('\n')}\n`,
  `Zeit;X [g];Y [g];Z [g]\r\n${Array.from({ length: 40 }, (_, i) => `0,0${i + 10};0,1;-0,2;1,0`).join('\r\n')}\r\n`,
  `"t (ms)"\t"x"\t"y"\t"z"\n${Array.from({ length: 40 }, (_, i) => `${i * 10}\t1\t2\t3`).join('\n')}`,
]

const madeUpLog = (seed: number): string => {
  const mark = chance(seed).pick([',', ';', '\t', ' '])
  return makeUp(fc.oneof(TABLE.map((rows) => rows.map((row) => row.join(mark)).join('\n')), TEXT), seed)
}

/** Acceleration logs: every line is a sample, a bad row, a blank line or above the data. */
export const logTarget: Target = {
  name: 'acceleration logs',
  share: 0.15,
  run: (seed) => {
    const some = chance(seed)
    const text = isMadeUp(seed) ? madeUpLog(seed) : mutateText(some.pick(LOGS), some)
    const layout = proposeLayout(text)
    const mapping = layout === null ? null : proposeMapping(text, layout).mapping
    if (layout === null || mapping === null || !isMapped(mapping)) return nothing()
    const reader = new LogReader(layout, mapping)
    const cut = some.int(0, text.length)
    reader.push(text.slice(0, cut))
    reader.push(text.slice(cut))
    const table = reader.end()
    const numbers = [table.timeS, ...Object.values(table.axes)]
    if (numbers.some((column) => column.length !== table.count)) return Promise.resolve('columns of different lengths')
    if (numbers.some((column) => column.some((value) => !Number.isFinite(value)))) return Promise.resolve('a number is not finite')
    const above = Math.min(table.lineCount, layout.firstLine - 1)
    if (table.count + table.bad.total + table.blankLines + above !== table.lineCount) {
      return Promise.resolve(`rows vanish: ${table.count} + ${table.bad.total} + ${table.blankLines} of ${table.lineCount}`)
    }
    regularise(table)
    return nothing()
  },
  end: nothing,
}

const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0))

/** Beginnings of the known formats, after their published layouts. */
const HEADERS = [
  [0x89, ...ascii('PNG\r\n\u001a\n'), 0, 0, 0, 13, ...ascii('IHDR'), 0, 0, 4, 0, 0, 0, 3, 0, 8, 2, 0, 0, 0],
  [0xff, 0xd8, 0xff, 0xe0, 0, 16, ...ascii('JFIF\u0000'), 1, 1, 0, 0, 1, 0, 1, 0, 0, 0xff, 0xc0, 0, 17, 8, 3, 0, 4, 0, 3, 1, 0x22, 0],
  [...ascii('RIFF'), 40, 0, 0, 0, ...ascii('WEBPVP8 '), 20, 0, 0, 0, 0x30, 1, 0, 0x9d, 1, 0x2a, 0, 4, 0, 3, 0, 0],
  [...ascii('RIFF'), 40, 0, 0, 0, ...ascii('WEBPVP8X'), 10, 0, 0, 0, 0, 0, 0, 0, 0xff, 3, 0, 0xff, 2, 0],
  [...ascii('RIFF'), 40, 0, 0, 0, ...ascii('WEBPVP8L'), 10, 0, 0, 0, 0x2f, 0xff, 0xc3, 0xbf, 0, 0, 0],
  [0x1a, 0x45, 0xdf, 0xa3, 0x9f, 0x42, 0x86, 0x81, 1],
  [0, 0, 0, 24, ...ascii('ftypisom'), 0, 0, 2, 0, ...ascii('isomiso2')],
].map((bytes) => Uint8Array.from(bytes))

/** As encoders write them. */
const REAL = STILL_BEGINNINGS.map(({ base64 }) => Uint8Array.from(Buffer.from(base64, 'base64')))

/** Picture headers: a size, where one is told, is one. */
export function headerTarget(): Target {
  const beginnings = [...HEADERS, ...REAL]
  return {
    name: 'picture headers',
    share: 0.15,
    run: (seed) => {
      const some = chance(seed)
      const bytes = isMadeUp(seed) ? makeUp(BYTES, seed) : mutateBytes(some.pick(beginnings), some)
      const size = readHeader(bytes)?.size ?? null
      const whole = (value: number): boolean => Number.isSafeInteger(value) && value > 0
      return Promise.resolve(size === null || (whole(size.widthPx) && whole(size.heightPx)) ? null : 'a size that is none')
    },
    end: nothing,
  }
}

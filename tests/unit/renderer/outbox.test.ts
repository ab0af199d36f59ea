/** What could not be written down outlives the window: kept by the browser, taken in by the next one. */
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Chassis, SquatSession } from '@core/schema'
import type { Answer, ServiceInput } from '@core/services'
import { piecesBetween, withPieces } from '@renderer/stores/outbox/pieces'
import { useProject } from '@renderer/stores/project'
import { sampleChassis, sampleReading, sampleSquat } from '../../harness/sample'

/** A browser's store in memory, with a bound. */
class Store {
  readonly texts = new Map<string, string>()
  most = Infinity
  get length(): number { return this.texts.size }
  key(index: number): string | null { return [...this.texts.keys()][index] ?? null }
  getItem(key: string): string | null { return this.texts.get(key) ?? null }
  removeItem(key: string): void { this.texts.delete(key) }
  setItem(key: string, text: string): void {
    if (text.length > this.most) throw new DOMException('full', 'QuotaExceededError')
    this.texts.set(key, text)
  }
}

/** Files on a disk, and a host that may be dead. */
const disk = { chassis: {} as Chassis, sessions: new Map<string, SquatSession>(), dead: false, gone: false }
const LIBRARY = { libraryId: '0123456789abcdef' }

function service(name: string, input: unknown): unknown {
  if (name === 'library.identity') return LIBRARY
  if (name === 'library.open') return { chassis: disk.chassis, sessions: [...disk.sessions.values()], unreadable: [], altered: [] }
  if (name !== 'library.saveSession') throw new Error(name)
  const { session, baseRevision } = input as ServiceInput<'library.saveSession'>
  const held = disk.sessions.get(session.id)
  if ((held?.revision ?? 0) !== baseRevision) return { kind: 'conflict', current: held }
  disk.sessions.set(session.id, { ...(session as SquatSession), revision: baseRevision + 1 })
  return { kind: 'saved', revision: baseRevision + 1 }
}

async function answer(name: string, input: unknown): Promise<Answer<unknown>> {
  await Promise.resolve()
  if (disk.dead) return { ok: false, error: { code: 'unavailable', message: 'Squatbench does not answer.', problems: [] } }
  if (disk.gone && name === 'library.open') {
    return { ok: false, error: { code: 'notFound', message: 'No such car.', problems: [] } }
  }
  return { ok: true, value: structuredClone(service(name, structuredClone(input))) }
}

let store: Store
/** A window is opened: its own state, the same browser. The one before is closed: its retries end. */
async function openWindow(): Promise<ReturnType<typeof useProject>> {
  vi.clearAllTimers()
  setActivePinia(createPinia())
  const project = useProject()
  const opening = project.recover().then(() => project.open('mule'))
  await vi.advanceTimersByTimeAsync(100)
  expect(await opening).toBe(true)
  return project
}
const retype = (shownMm: number): void =>
  useProject().changeSession('squat', 's', 'reading', (draft) => {
    const reading = draft.readings[0]!
    reading.corrections.push({ was: reading.shownMm, at: '2031-05-04T09:31:00.000Z', why: 'typed again' })
    reading.shownMm = shownMm
  })
const onDisk = () => disk.sessions.get('s')!.readings[0]!

beforeEach(() => {
  vi.useFakeTimers()
  store = new Store()
  disk.chassis = { ...sampleChassis('mule'), revision: 1 }
  disk.sessions = new Map([['s', { ...sampleSquat('mule', 's', [0, 1]), revision: 1 }]])
  disk.dead = false
  disk.gone = false
  vi.stubGlobal('localStorage', store)
  vi.stubGlobal('squatbench', { call: answer })
})
afterEach(() => { vi.useRealTimers(); vi.unstubAllGlobals() })

describe('a value typed while nobody answers', () => {
  it('is in the car and on the disk when the next window opens, and is told', async () => {
    await openWindow()
    disk.dead = true
    retype(4.44)
    await vi.advanceTimersByTimeAsync(50)
    expect(useProject().saveState).toBe('waiting')
    expect(useProject().keptByBrowser).toBe(true)
    expect(store.texts.size).toBe(1)

    disk.dead = false
    const next = await openWindow()
    await vi.advanceTimersByTimeAsync(50)
    expect(next.squats[0]!.readings[0]!.shownMm).toBe(4.44)
    expect(onDisk().shownMm).toBe(4.44)
    expect(next.recovered).toEqual([{ name: disk.chassis.name, count: 1 }])
    expect(store.texts.size).toBe(0)
  })

  it('stands over what another window wrote there meanwhile, and keeps that among the corrections', async () => {
    await openWindow()
    disk.dead = true
    retype(4.44)
    await vi.advanceTimersByTimeAsync(50)
    const held = disk.sessions.get('s')!
    const [first, second] = held.readings as [SquatSession['readings'][0], SquatSession['readings'][0]]
    const other = { ...first, shownMm: 5.55 }
    disk.sessions.set('s', { ...held, revision: 2, readings: [other, { ...second, shownMm: 6 }, sampleReading(9)] })
    disk.dead = false
    await openWindow()
    await vi.advanceTimersByTimeAsync(50)
    expect(onDisk().shownMm).toBe(4.44)
    expect(onDisk().corrections.at(-1)).toMatchObject({ was: 5.55, why: 'typed before' })
    expect(disk.sessions.get('s')!.readings.map((each) => each.shownMm)).toEqual([4.44, 6, sampleReading(9).shownMm])
  })

  it('is told and kept where its session was taken out meanwhile, until the builder lets it go', async () => {
    await openWindow()
    disk.dead = true
    retype(4.44)
    await vi.advanceTimersByTimeAsync(50)
    disk.sessions.clear()
    disk.dead = false
    const next = await openWindow()
    await vi.advanceTimersByTimeAsync(50)
    expect(next.stranded.map(({ name }) => name)).toEqual([disk.chassis.name])
    expect(next.stranded[0]!.kept.text).toContain('4.44')
    expect(store.texts.size).toBe(1)
    next.letGo(next.stranded[0]!)
    expect([next.stranded, store.texts.size]).toEqual([[], 0])
  })

  it('is told by what is known of its car, and kept, where the whole car is gone', async () => {
    await openWindow()
    disk.dead = true
    retype(4.44)
    await vi.advanceTimersByTimeAsync(50)
    disk.dead = false
    disk.gone = true
    vi.clearAllTimers()
    setActivePinia(createPinia())
    const next = useProject()
    const recovering = next.recover()
    await vi.advanceTimersByTimeAsync(100)
    await recovering
    expect(next.stranded.map((each) => each.name)).toEqual(['mule'])
    expect(next.stranded[0]!.kept.text).toContain('4.44')
    expect(store.texts.size).toBe(1)
  })

  it('is kept as a whole where the session itself is new', async () => {
    const project = await openWindow()
    disk.dead = true
    project.addSession(sampleSquat('mule', 'new', [3, 4]))
    await vi.advanceTimersByTimeAsync(50)
    disk.dead = false
    await openWindow()
    await vi.advanceTimersByTimeAsync(50)
    expect(disk.sessions.get('new')!.readings).toHaveLength(2)
    expect(store.texts.size).toBe(0)
  })

  it('is said to be in the window alone where the browser keeps nothing', async () => {
    store.most = 0
    const project = await openWindow()
    disk.dead = true
    retype(4.44)
    await vi.advanceTimersByTimeAsync(50)
    expect(project.keptByBrowser).toBe(false)
    disk.dead = false
    project.tryNow()
    await vi.advanceTimersByTimeAsync(50)
    expect([project.keptByBrowser, project.saveState]).toEqual([true, 'saved'])
  })

  it('of another library, or torn, is left alone', async () => {
    store.setItem('squatbench:unwritten:fedcba9876543210:mule:s:window-a', '{}')
    store.setItem(`squatbench:unwritten:${LIBRARY.libraryId}:mule:s:window-a`, '{"version":1,"chassisId":"mule"')
    const project = await openWindow()
    expect(project.recovered).toEqual([])
    expect(store.texts.size).toBe(2)
    expect(disk.sessions.get('s')!.revision).toBe(1)
  })
})

it('nothing stays kept once a change is on the disk, nor is a lost acknowledgement taken in twice', async () => {
  await openWindow()
  retype(4.44)
  expect(store.texts.size).toBe(1)
  const [[key, text]] = [...store.texts] as [[string, string]]
  await vi.advanceTimersByTimeAsync(50)
  expect(store.texts.size).toBe(0)
  store.setItem(key, text)
  const next = await openWindow()
  expect(next.recovered).toEqual([])
  expect(store.texts.size).toBe(0)
  expect(disk.sessions.get('s')!.revision).toBe(2)
})

describe('pieces', () => {
  it('lead from one state to the other and back, and hold no more than what changed', () => {
    const before = sampleSquat('mule', 's', [0, 1, 2])
    const [first, second] = before.readings as [SquatSession['readings'][0], SquatSession['readings'][0]]
    const after: SquatSession = { ...before, name: 'Evening', readings: [first, { ...second, shownMm: 9 }, sampleReading(7)] }
    const pieces = piecesBetween(before, after)
    expect(pieces.map((each) => [each.key, each.id])).toEqual([
      ['name', null], ['readings', second.id], ['readings', 'r2'], ['readings', 'r7'],
    ])
    expect(withPieces(before, pieces, 'is')).toEqual(after)
    expect(piecesBetween(withPieces(after, pieces, 'was'), before)).toEqual([])
  })
})

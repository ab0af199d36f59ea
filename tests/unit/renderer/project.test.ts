/** The open car against a stand-in for the service table: every entry is kept through failure, conflict and undo. */
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Chassis, Session, SquatSession } from '@core/schema'
import type { Answer, ServiceInput, ServiceOutput } from '@core/services'
import { useProject } from '@renderer/stores/project'
import { sampleChassis, sampleReading, sampleSquat } from '../../harness/sample'

/** A library in memory with the revisions of the real one. */
class Library {
  chassis: Chassis = { ...sampleChassis('mule'), revision: 1 }
  readonly sessions = new Map<string, Session>([['s', { ...sampleSquat('mule', 's', [0]), revision: 1 }]])
  failing = false
  saves = 0

  async call(name: string, input: unknown): Promise<Answer<unknown>> {
    await Promise.resolve()
    if (this.failing) return { ok: false, error: { code: 'noSpace', message: 'The disk is full.', problems: [] } }
    switch (name) {
      case 'library.open': return { ok: true, value: { chassis: this.chassis, sessions: [...this.sessions.values()], unreadable: [], altered: [] } }
      case 'library.revisions': return { ok: true, value: this.revisions() }
      case 'library.saveChassis': return { ok: true, value: this.saveChassis(input as ServiceInput<'library.saveChassis'>) }
      case 'library.saveSession': return { ok: true, value: this.saveSession(input as ServiceInput<'library.saveSession'>) }
      case 'library.removeSession': {
        this.sessions.delete((input as ServiceInput<'library.removeSession'>).sessionId)
        return { ok: true, value: {} }
      }
      case 'library.identity': return { ok: true, value: { libraryId: '0123456789abcdef' } }
      default: throw new Error(name)
    }
  }

  private revisions(): ServiceOutput<'library.revisions'> {
    const sessions = Object.fromEntries([...this.sessions].map(([id, each]) => [id, each.revision]))
    return { chassis: this.chassis.revision, sessions }
  }

  private saveChassis(
    { chassis, baseRevision }: ServiceInput<'library.saveChassis'>,
  ): ServiceOutput<'library.saveChassis'> {
    if (baseRevision !== this.chassis.revision) return { kind: 'conflict', current: this.chassis }
    this.saves += 1
    this.chassis = { ...chassis, revision: baseRevision + 1 }
    return { kind: 'saved', revision: baseRevision + 1 }
  }

  private saveSession(
    { session, baseRevision }: ServiceInput<'library.saveSession'>,
  ): ServiceOutput<'library.saveSession'> {
    const held = this.sessions.get(session.id)
    if (baseRevision !== (held?.revision ?? 0)) return { kind: 'conflict', current: held! }
    this.saves += 1
    this.sessions.set(session.id, { ...session, revision: baseRevision + 1 })
    return { kind: 'saved', revision: baseRevision + 1 }
  }

  /** Another window adds a reading. */
  writeElsewhere(count: number): void {
    const held = this.sessions.get('s') as SquatSession
    this.sessions.set('s', { ...held, revision: held.revision + 1, readings: [...held.readings, sampleReading(count)] })
  }

  readings(): string[] {
    return (this.sessions.get('s') as SquatSession | undefined)?.readings.map((each) => each.id).sort() ?? []
  }
}

let library: Library
const add = (count: number): void =>
  useProject().changeSession('squat', 's', `reading ${count}`, (draft) => { draft.readings.push(sampleReading(count)) })
const shown = (): string[] => useProject().squats[0]!.readings.map((each) => each.id).sort()

beforeEach(async () => {
  library = new Library()
  vi.stubGlobal('squatbench', { call: (name: string, input: unknown) => library.call(name, structuredClone(input)) })
  setActivePinia(createPinia())
  expect(await useProject().open('mule')).toBe(true)
})
afterEach(() => { vi.unstubAllGlobals(); vi.useRealTimers() })

describe('a session with the id of its chassis', () => {
  it('is written down, undone and told apart from the chassis', async () => {
    library.chassis = { ...library.chassis, id: 'other', revision: 1 }
    library.sessions.clear()
    library.sessions.set('other', { ...sampleSquat('other', 'other', [0]), revision: 4 })
    const project = useProject()
    await project.open('other')
    project.changeSession('squat', 'other', 'reading', (draft) => { draft.readings.push(sampleReading(7)) })
    project.changeChassis('note', (draft) => { draft.note = 'changed' })
    await project.settled()
    const held = library.sessions.get('other') as SquatSession
    expect([held.revision, held.readings.map((each) => each.id)]).toEqual([5, ['r0', 'r7']])
    expect([library.chassis.revision, library.chassis.note]).toEqual([2, 'changed'])
    await project.undo()
    await project.undo()
    await project.settled()
    expect((library.sessions.get('other') as SquatSession).readings.map((each) => each.id)).toEqual(['r0'])
    expect(library.chassis.note).toBe('')
  })
})

describe('the open car', () => {
  it('writes each change down, and shares what did not change', async () => {
    const before = useProject().squats[0]!
    add(1)
    expect(useProject().saveState).toBe('saving')
    await useProject().settled()
    expect(library.readings()).toEqual(['r0', 'r1'])
    expect(useProject().saveState).toBe('saved')
    expect(useProject().squats[0]!.steps).toBe(before.steps)
    expect(useProject().squats[0]!.revision).toBe(2)
  })

  it('keeps what could not be written, says so, and writes it when it can', async () => {
    vi.useFakeTimers()
    library.failing = true
    add(1)
    add(2)
    await vi.advanceTimersByTimeAsync(10)
    expect(useProject().saveState).toBe('waiting')
    expect(useProject().error?.message).toBe('The disk is full.')
    expect(shown()).toEqual(['r0', 'r1', 'r2'])
    library.failing = false
    await vi.advanceTimersByTimeAsync(5000)
    expect(useProject().saveState).toBe('saved')
    expect(useProject().error).toBeNull()
    expect(library.readings()).toEqual(['r0', 'r1', 'r2'])
  })

  it('writes at once when asked to try again', async () => {
    vi.useFakeTimers()
    library.failing = true
    add(1)
    await vi.advanceTimersByTimeAsync(10)
    library.failing = false
    useProject().tryNow()
    await vi.advanceTimersByTimeAsync(10)
    expect(library.readings()).toEqual(['r0', 'r1'])
  })

  it('keeps both sides where another window wrote first, and tells', async () => {
    library.writeElsewhere(50)
    add(1)
    await vi.waitFor(() => expect(library.readings()).toEqual(['r0', 'r1', 'r50']))
    expect(shown()).toEqual(['r0', 'r1', 'r50'])
    expect(useProject().said).toMatchObject({ key: 'merged' })
  })

  it('takes in what another window wrote when it is looked at again', async () => {
    library.writeElsewhere(50)
    await useProject().refresh()
    expect(shown()).toEqual(['r0', 'r50'])
    expect(useProject().said).toMatchObject({ key: 'refreshed' })
    add(1)
    await useProject().settled()
    expect(library.readings()).toEqual(['r0', 'r1', 'r50'])
  })

  it('takes back the last change only, and does it again', async () => {
    add(1)
    add(2)
    library.writeElsewhere(50)
    await useProject().undo()
    await vi.waitFor(() => expect(library.readings()).toEqual(['r0', 'r1', 'r50']))
    await useProject().redo()
    await vi.waitFor(() => expect(library.readings()).toEqual(['r0', 'r1', 'r2', 'r50']))
    expect(shown()).toEqual(['r0', 'r1', 'r2', 'r50'])
  })

  it('takes back a new session and a removed one', async () => {
    const project = useProject()
    project.addSession(sampleSquat('mule', 'new', [7]))
    await project.settled()
    expect(library.sessions.has('new')).toBe(true)
    await project.undo()
    expect(library.sessions.has('new')).toBe(false)
    await project.removeSession('s')
    expect(project.squats).toHaveLength(0)
    await project.undo()
    await project.settled()
    expect(library.readings()).toEqual(['r0'])
  })
})

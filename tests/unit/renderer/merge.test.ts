/** Joining two windows' writing, and taking back one change from below later ones: nothing entered is lost. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Reading, SquatSession } from '@core/schema'
import { mergeDocuments } from '@renderer/stores/merge'
import { sampleReading, sampleSquat } from '../../harness/sample'

const NOTE = { at: '2031-05-04T10:00:00.000Z', why: 'another window' }
const base = sampleSquat('mule', 'squat', [0, 1, 2, 3])
const withReadings = (readings: readonly Reading[], revision = 0): SquatSession =>
  ({ ...base, revision, readings: [...readings] })
const reading = (count: number, shownMm = count / 1000): Reading => ({ ...sampleReading(count), shownMm })
const ids = (session: SquatSession): string[] => session.readings.map((each) => each.id).sort()
const of = (session: SquatSession, count: number): Reading | undefined =>
  session.readings.find((each) => each.id === `r${count}`)

describe('two windows on one session', () => {
  it('keeps the readings of both and takes the other’s revision', () => {
    const mine = withReadings([...base.readings, reading(10)])
    const theirs = withReadings([...base.readings, reading(20)], 7)
    const merged = mergeDocuments(base, mine, theirs, NOTE)
    expect(ids(merged)).toEqual(['r0', 'r1', 'r10', 'r2', 'r20', 'r3'])
    expect(merged.revision).toBe(7)
  })

  it('lets this window’s figure stand where both corrected one reading, and keeps the other among its corrections', () => {
    const was = { was: 0, at: '2031-05-04T09:31:00.000Z', why: 'typed again' }
    const mine = withReadings([{ ...reading(0, 5), corrections: [was] }, ...base.readings.slice(1)])
    const later = { ...was, at: '2031-05-04T09:32:00.000Z' }
    const theirs = withReadings([{ ...reading(0, 6), corrections: [later] }, ...base.readings.slice(1)], 3)
    const merged = of(mergeDocuments(base, mine, theirs, NOTE), 0)
    expect(merged?.shownMm).toBe(5)
    expect(merged?.corrections.map((each) => each.was)).toEqual([0, 0, 6])
    expect(merged?.corrections.at(-1)).toMatchObject({ was: 6, why: 'another window' })
  })

  it('takes the other’s figure where only the other changed it', () => {
    const theirs = withReadings([reading(0, 6), ...base.readings.slice(1)], 3)
    expect(of(mergeDocuments(base, base, theirs, NOTE), 0)).toEqual(reading(0, 6))
  })

  it('keeps a reading that one side took out and the other changed', () => {
    const theirs = withReadings([reading(0, 6), ...base.readings.slice(1)], 3)
    const merged = mergeDocuments(base, withReadings(base.readings.slice(1)), theirs, NOTE)
    expect(of(merged, 0)?.shownMm).toBe(6)
  })

  it('lets one side’s taking out stand where the other left it alone', () => {
    const merged = mergeDocuments(base, withReadings(base.readings.slice(1)), withReadings(base.readings, 3), NOTE)
    expect(of(merged, 0)).toBeUndefined()
  })

  it('never loses a reading added on either side (property)', () => {
    const counts = fc.uniqueArray(fc.integer({ min: 100, max: 999 }), { maxLength: 30 })
    fc.assert(fc.property(counts, counts, (mine, theirs) => {
      const merged = mergeDocuments(
        base, withReadings([...base.readings, ...mine.map((each) => reading(each))]),
        withReadings([...base.readings, ...theirs.map((each) => reading(each))], 1), NOTE,
      )
      const wanted = new Set([...base.readings.map((each) => each.id), ...[...mine, ...theirs].map((each) => `r${each}`)])
      expect(new Set(ids(merged))).toEqual(wanted)
      expect(merged.readings).toHaveLength(wanted.size)
    }))
  })
})

describe('taking back one change below later ones', () => {
  it('takes out what the change added and leaves what came after', () => {
    const before = base
    const after = withReadings([...base.readings, reading(10)])
    const current = withReadings([...base.readings, reading(10), reading(11)], 5)
    const undone = mergeDocuments(after, before, current, NOTE)
    expect(ids(undone)).toEqual(['r0', 'r1', 'r11', 'r2', 'r3'])
    expect(ids(mergeDocuments(before, after, undone, NOTE))).toEqual(ids(current))
  })

  it('puts a figure back that the change altered', () => {
    const corrections = [{ was: 0, at: NOTE.at, why: 'typed again' }]
    const after = withReadings([{ ...reading(0, 9), corrections }, ...base.readings.slice(1)])
    expect(mergeDocuments(after, base, { ...after, revision: 4 }, NOTE)).toEqual({ ...base, revision: 4 })
  })
})

import { describe, expect, it } from 'vitest'
import { changes, deadCommands, deadLinks, references } from '../../harness/docs'

describe('the pages for readers', () => {
  it('lead to files that are there, and name commands that are there', () => {
    expect(deadLinks().dead).toEqual([])
    expect(deadCommands().dead).toEqual([])
  })

  it('cite each reference of the method, and list each that is cited', () => {
    const { listed, cited } = references()
    expect(listed.length).toBeGreaterThan(5)
    expect(cited).toEqual(listed)
  })

  it('tell the version and its file version', () => {
    expect(changes().told).toBe(true)
  })
})

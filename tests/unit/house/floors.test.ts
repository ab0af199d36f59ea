import { describe, expect, it } from 'vitest'
import { FLOORS, mayImport } from '../../../floors'
import { importsOfCore } from '../../harness/imports'

describe('imports of shared-core', () => {
  it('go down only, and to nothing but pure packages', () => {
    const { files, between, wrong } = importsOfCore()
    expect(wrong).toEqual([])
    expect(files).toBeGreaterThan(50)
    expect(between).toBeGreaterThan(50)
  })

  it('may not go up, sideways or out', () => {
    expect(mayImport('calibration', 'uncertainty')).toBe(true)
    expect(mayImport('uncertainty', 'calibration')).toBe(false)
    expect(mayImport('airflow', 'camera')).toBe(false)
    expect(mayImport('report', '..')).toBe(false)
    expect(new Set(FLOORS.flat()).size).toBe(FLOORS.flat().length)
  })
})

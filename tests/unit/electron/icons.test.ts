import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { ICON_FILES } from '@electron/tools/builderConfig'
import { icns, ico } from '@electron/tools/iconFiles'

const read = (file: string): Buffer => readFileSync(new URL(`../../../${file}`, import.meta.url))
/** A PNG begins with these bytes; its width stands at 16 (PNG specification, third edition, 5.2 and 11.2.1). */
const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
const widthOf = (png: Buffer): number => {
  expect(png.subarray(0, 8)).toEqual(SIGNATURE)
  return png.readUInt32BE(16)
}

describe('the icon files', () => {
  it('hold pictures of every side that macOS asks for', () => {
    const file = read(ICON_FILES.mac)
    expect([file.toString('latin1', 0, 4), file.readUInt32BE(4)]).toEqual(['icns', file.length])
    const found: [string, number][] = []
    for (let at = 8; at < file.length; at += file.readUInt32BE(at + 4)) {
      found.push([file.toString('latin1', at, at + 4), widthOf(file.subarray(at + 8))])
    }
    expect(found).toEqual([['ic11', 32], ['ic12', 64], ['ic07', 128], ['ic08', 256], ['ic09', 512], ['ic10', 1024]])
  })

  it('hold pictures of the sides that Windows asks for, where the file says they are', () => {
    const file = read(ICON_FILES.win)
    expect([file.readUInt16LE(0), file.readUInt16LE(2), file.readUInt16LE(4)]).toEqual([0, 1, 6])
    const sides = Array.from({ length: 6 }, (_, index) => {
      const entry = 6 + 16 * index
      const at = file.readUInt32LE(entry + 12)
      expect(at + file.readUInt32LE(entry + 8)).toBeLessThanOrEqual(file.length)
      const side = widthOf(file.subarray(at))
      expect(file[entry]).toBe(side % 256)
      return side
    })
    expect(sides).toEqual([16, 32, 48, 64, 128, 256])
  })

  it('take pictures of known sides only', () => {
    const png = Buffer.from('x')
    expect(icns([{ sidePx: 48, png }]).length).toBe(8)
    expect(ico([{ sidePx: 512, png }]).readUInt16LE(4)).toBe(0)
  })
})

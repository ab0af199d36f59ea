/** Headers of real encoders, damaged ones, and fingerprints. */
import { fingerprintOf, readHeader } from '@core/camera'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { STILL_BEGINNINGS } from '../../synthetic/stillBeginnings'

describe('header', () => {
  it.each(STILL_BEGINNINGS)('of a real file: $format', ({ format, base64 }) => {
    const bytes = Uint8Array.from(Buffer.from(base64, 'base64'))
    expect(readHeader(bytes)).toEqual({ format, size: { widthPx: 160, heightPx: 120 } })
    for (const cut of [0, 3, 11, 20, 29]) expect(() => readHeader(bytes.subarray(0, cut))).not.toThrow()
  })

  it('of clips is known by its first bytes', () => {
    expect(readHeader(Uint8Array.of(0x1a, 0x45, 0xdf, 0xa3, 0x93))).toEqual({ format: 'webm', size: null })
    const mp4 = new Uint8Array([0, 0, 0, 24, ...new TextEncoder().encode('ftypisom')])
    expect(readHeader(mp4)).toEqual({ format: 'mp4', size: null })
  })

  it('of a text, an empty file or zeros is none', () => {
    for (const bytes of [new Uint8Array(), new Uint8Array(100), new TextEncoder().encode('height;12,3')]) {
      expect(readHeader(bytes)).toBeNull()
    }
  })

  it('never throws and never tells a size of nothing, whatever the bytes', () => {
    const starts = [[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], [0xff, 0xd8, 0xff], [0x1a, 0x45, 0xdf, 0xa3], []]
    fc.assert(fc.property(fc.constantFrom(...starts), fc.uint8Array({ maxLength: 300 }), (start, rest) => {
      const size = readHeader(Uint8Array.of(...start, ...rest))?.size
      if (size) expect(Math.min(size.widthPx, size.heightPx)).toBeGreaterThan(0)
    }), { numRuns: 2000 })
  })
})

describe('fingerprint', () => {
  it('is FNV-1a of both ends: "a" is e40c292c, "foobar" is bf9cf968 (the published test vectors)', () => {
    const bytes = (text: string) => new TextEncoder().encode(text)
    expect(fingerprintOf(7, bytes('a'), bytes('foobar'))).toBe('7-e40c292cbf9cf968')
  })
})

/** Headers of real encoders, damaged ones, and fingerprints. */
import { fingerprintOf, heldSize, pixelsStart, readCamera, readHeader, walkPixels } from '@core/camera'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawFrom } from '../../synthetic/random'
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

  const ftyp = (...brands: string[]) => {
    const text = new TextEncoder().encode(`ftyp${brands[0]}\0\0\0\0${brands.slice(1).join('')}`)
    return new Uint8Array([0, 0, 0, 4 + text.length, ...text])
  }

  it('of a phone photo is not taken for a film', () => {
    expect(readHeader(ftyp('heic', 'mif1', 'heic'))?.format).toBe('heif')
    expect(readHeader(ftyp('mif1', 'heic'))?.format).toBe('heif')
    expect(readHeader(ftyp('avif', 'mif1', 'miaf'))?.format).toBe('avif')
    expect(readHeader(ftyp('mif1', 'avif'))?.format).toBe('avif')
    expect(readHeader(ftyp('qt  ', 'qt  '))?.format).toBe('mp4')
    expect(readHeader(ftyp('isom', 'iso2', 'mp41'))?.format).toBe('mp4')
  })

  it('of a TIFF is known in both byte orders, to be named', () => {
    for (const start of [[0x49, 0x49, 0x2a, 0], [0x4d, 0x4d, 0, 0x2a]]) {
      expect(readHeader(Uint8Array.of(...start, 8, 0, 0, 0))?.format).toBe('tiff')
    }
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

describe('a photo with a film behind it', () => {
  // Head with a small picture of its own (whose end marker counts for nothing), pixels, end marker, film.
  const head = [0xff, 0xd8, 0xff, 0xe1, 0, 6, 0xff, 0xd9, 0, 0, 0xff, 0xda, 0, 4, 0, 0]
  it('has its end after its pixels begin, not in the small picture of its head', () => {
    const whole = Uint8Array.of(...head, 1, 2, 0xff, 0, 3, 0xff, 0xd9, 0, 0, 0, 24, 0x66, 0x74, 0x79, 0x70)
    expect(pixelsStart(whole)).toBe(10)
    expect(walkPixels(whole.subarray(10))).toBe('whole')
    expect(walkPixels(Uint8Array.of(...head, 1, 2, 0xff, 0, 3, 0, 0, 0, 24).subarray(10))).toBe('cutOff')
  })
})

describe('the pixels of a JPEG', () => {
  const scan = [0xff, 0xda, 0, 4, 0, 0, 1, 2]
  it('are whole with stuffed bytes, restarts, and tables before the next scan, whatever stands in these', () => {
    expect(walkPixels(Uint8Array.of(...scan, 0xff, 0, 7, 0xff, 0xd3, 7, 0xff, 0xd9))).toBe('whole')
    expect(walkPixels(Uint8Array.of(...scan, 0xff, 0xc4, 0, 5, 0xff, 0x17, 9, ...scan, 0xff, 0xd9))).toBe('whole')
  })

  it('are damaged where a byte ff is followed by what never follows it there, and cut off without an end', () => {
    expect(walkPixels(Uint8Array.of(...scan, 0xff, 0x17, 7, 0xff, 0xd9))).toBe('damaged')
    expect(walkPixels(Uint8Array.of(...scan, 0xff, 0, 7))).toBe('cutOff')
  })

  it('are damaged in nearly every file in which 4 kB were overwritten by noise', () => {
    // A scan of plain bytes: what is looked for are the noise's own bytes ff.
    const whole = Uint8Array.of(...scan, ...new Array<number>(20_000).fill(0x35), 0xff, 0xd9)
    const draw = drawFrom(5)
    let seen = 0
    for (let round = 0; round < 100; round++) {
      const bytes = whole.slice()
      const from = draw.whole(8, 15_000)
      for (let i = 0; i < 4096; i++) bytes[from + i] = draw.whole(0, 255)
      if (walkPixels(bytes) === 'damaged') seen += 1
    }
    expect(seen).toBeGreaterThan(90)
  })
})

describe('size that can be held', () => {
  it('is the whole up to 120 million px, a half above, and none where a side is too long to decode', () => {
    expect(heldSize({ widthPx: 12_000, heightPx: 9000 })).toEqual({ widthPx: 12_000, heightPx: 9000, shrunk: 1 })
    expect(heldSize({ widthPx: 16_320, heightPx: 12_240 })).toEqual({ widthPx: 8160, heightPx: 6120, shrunk: 2 })
    expect(heldSize({ widthPx: 20_000, heightPx: 100 })).toBeNull()
  })
})

describe('what a file says of its camera', () => {
  /** A block as CIPA DC-008 lays it out: maker, a pointer to the second part, and there the focal length. */
  function block(little: boolean, focal: number): Uint8Array {
    const view = new DataView(new ArrayBuffer(80))
    view.setUint16(0, little ? 0x4949 : 0x4d4d)
    view.setUint16(2, 42, little)
    view.setUint32(4, 8, little)
    const entry = (at: number, tag: number, type: number, count: number, value: number): void => {
      view.setUint16(at, tag, little)
      view.setUint16(at + 2, type, little)
      view.setUint32(at + 4, count, little)
      if (type === 3) view.setUint16(at + 8, value, little)
      else view.setUint32(at + 8, value, little)
    }
    view.setUint16(8, 2, little)
    entry(10, 0x010f, 2, 6, 60)
    entry(22, 0x8769, 4, 1, 38)
    view.setUint16(38, 1, little)
    entry(40, 0xa405, 3, 1, focal)
    'Maker\0'.split('').forEach((letter, i) => view.setUint8(60 + i, letter.charCodeAt(0)))
    return new Uint8Array([0xff, 0xd8, 0xff, 0xe1, 0, 88, 0x45, 0x78, 0x69, 0x66, 0, 0, ...new Uint8Array(view.buffer)])
  }

  it.each([true, false])('is its maker and its focal length (little-endian %s)', (little) => {
    expect(readCamera(block(little, 26))).toEqual({ says: 'Maker', focal35Mm: 26 })
  })

  it('is nothing without the block, and never throws, whatever the bytes', () => {
    expect(readCamera(new Uint8Array(100))).toBeNull()
    fc.assert(fc.property(fc.uint8Array({ maxLength: 80 }), fc.nat(79), (noise, at) => {
      const bytes = block(true, 26)
      bytes.set(noise.subarray(0, bytes.length - Math.min(at + 12, bytes.length)), Math.min(at + 12, bytes.length))
      expect(() => readCamera(bytes)).not.toThrow()
    }), { numRuns: 2000 })
  })
})

describe('fingerprint', () => {
  it('is FNV-1a of both ends: "a" is e40c292c, "foobar" is bf9cf968 (the published test vectors)', () => {
    const bytes = (text: string) => new TextEncoder().encode(text)
    expect(fingerprintOf(7, bytes('a'), bytes('foobar'))).toBe('7-e40c292cbf9cf968')
  })
})

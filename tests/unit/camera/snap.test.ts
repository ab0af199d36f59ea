/** The snap: where it lands, how well it says so, and what it refuses. */
import { luminanceOf, snapToSticker } from '@core/camera'
import { describe, expect, it } from 'vitest'
import { drawFrom } from '../../synthetic/random'
import { blank, stickerPicture } from './pictures'

describe('luminance', () => {
  it('weighs by ITU-R BT.709: white is 255, the primaries are 0.2126, 0.7152 and 0.0722 of it', () => {
    const rgba = [255, 255, 255, 255, 255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255]
    expect([...luminanceOf(rgba, 4, 1).data]).toEqual([255, 54, 182, 18])
  })
})

describe('snap at 8-bit noise of sd 3', () => {
  it.each([[3, true], [4, false], [6, true], [10, false]])(
    'radius %d px, dark %s: within 0.05 px rms, and its own u is neither idle nor shy', (radius, dark) => {
      let square = 0
      const reach = 0.6 * radius
      let stated = 0
      const count = 25
      for (let seed = 1; seed <= count; seed++) {
        const draw = drawFrom(seed)
        const at = { x: 80 + draw.between(-6, 6), y: 60 + draw.between(-6, 6) }
        const picture = stickerPicture(at, { radius, dark, seed })
        const aimed = { x: at.x + draw.between(-reach, reach), y: at.y + draw.between(-reach, reach) }
        const snap = snapToSticker(picture, aimed)
        if (snap.kind !== 'snapped') throw new Error(`refused: ${snap.why}`)
        square += (snap.at.x - at.x) ** 2 + (snap.at.y - at.y) ** 2
        stated += 2 * snap.uPx ** 2
        expect(snap.polarity).toBe(dark ? 'dark' : 'light')
        expect(snap.radiusPx).toBeCloseTo(radius, 0)
      }
      expect(Math.sqrt(square / count / 2)).toBeLessThan(0.05)
      expect(stated / square).toBeGreaterThan(0.5)
      expect(stated / square).toBeLessThan(40)
    },
  )

  it('finds the middle of a smear', () => {
    const at = { x: 80.3, y: 59.6 }
    const snap = snapToSticker(stickerPicture(at, { smear: 5 }), { x: 82, y: 61 })
    if (snap.kind !== 'snapped') throw new Error(`refused: ${snap.why}`)
    expect(Math.abs(snap.at.x - at.x)).toBeLessThan(3 * snap.uPx)
    expect(Math.abs(snap.at.y - at.y)).toBeLessThan(3 * snap.uPx)
  })

  it('states a larger u where part of the sticker shines', () => {
    const at = { x: 80.2, y: 60.1 }
    const clean = stickerPicture(at)
    const shiny = { ...clean, data: Uint8Array.from(clean.data) }
    for (let y = 56; y < 59; y++) for (let x = 81; x < 84; x++) shiny.data[y * 160 + x] = 230
    const [before, after] = [snapToSticker(clean, at), snapToSticker(shiny, at)]
    if (before.kind !== 'snapped' || after.kind !== 'snapped') throw new Error('refused')
    expect(after.uPx).toBeGreaterThan(3 * before.uPx)
    expect(Math.hypot(after.at.x - at.x, after.at.y - at.y)).toBeLessThan(4 * after.uPx)
  })
})

describe('snap refuses', () => {
  it('an even picture', () => {
    expect(snapToSticker(blank(120), { x: 80, y: 60 })).toEqual({ kind: 'refused', why: 'noSpot' })
  })

  it('a point outside of the picture', () => {
    expect(snapToSticker(blank(120), { x: -5, y: 60 })).toEqual({ kind: 'refused', why: 'noSpot' })
  })

  it('a bar', () => {
    const picture = blank(200)
    for (let y = 58; y < 62; y++) picture.data.fill(30, y * 160 + 40, y * 160 + 120)
    expect(snapToSticker(picture, { x: 80, y: 60 }).kind).toBe('refused')
  })

  it('a sticker cut off by the border', () => {
    expect(snapToSticker(stickerPicture({ x: 2, y: 60 }), { x: 3, y: 60 }).kind).toBe('refused')
  })

  it('a sticker too far from where the builder pointed', () => {
    expect(snapToSticker(stickerPicture({ x: 30, y: 60 }), { x: 120, y: 60 }).kind).toBe('refused')
  })

  it('a sticker that hardly stands out of the noise', () => {
    const picture = stickerPicture({ x: 80, y: 60 }, { noiseSd: 60 })
    const snap = snapToSticker(picture, { x: 80, y: 60 })
    if (snap.kind === 'snapped') expect(snap.uPx).toBeGreaterThan(0.05)
    else expect(snap.kind).toBe('refused')
  })
})

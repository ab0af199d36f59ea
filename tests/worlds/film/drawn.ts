/** Draws a film world as grey pictures in a raw film file (YUV4MPEG2), which a browser's stand-in camera plays. */
import { closeSync, openSync, writeSync } from 'node:fs'
import { appears, filmOf, SPOTS, type FilmWorld, type Script, type SpotName } from './world'

const STICKER_MM = 5
const CARD_MM = 11
const NOISE = 2

/** A wall and a bench with a few soft shapes: nothing sharp near a sticker. */
function backdrop({ camera: { widthPx, heightPx } }: FilmWorld): Float32Array {
  const field = new Float32Array(widthPx * heightPx)
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      field[y * widthPx + x] = 128 + 14 * Math.sin(x / 31) + 12 * Math.cos(y / 27) - (30 * y) / heightPx
    }
  }
  return field
}

function disc(field: Float32Array, width: number, at: { x: number; y: number }, radius: number, level: number): void {
  for (let y = Math.floor(at.y - radius - 2); y <= at.y + radius + 2; y++) {
    for (let x = Math.floor(at.x - radius - 2); x <= at.x + radius + 2; x++) {
      const i = y * width + x
      if (x < 0 || x >= width || i < 0 || i >= field.length) continue
      // Sixteen looks into each pixel: how much of it lies in the disc.
      let inside = 0
      for (let k = 0; k < 16; k++) {
        const [dx, dy] = [x + ((k % 4) + 0.5) / 4 - at.x, y + (Math.floor(k / 4) + 0.5) / 4 - at.y]
        if (dx * dx + dy * dy <= radius * radius) inside += 1
      }
      field[i]! += (inside / 16) * (level - field[i]!)
    }
  }
}

/** Level of a frame in the usual light, as a script's light is counted. */
const USUAL_LIGHT = 120

/**
 * The film's pictures one after the other, grey levels row by row, in one array that the next picture takes over.
 * Places come from the world without its scatter of following, since these pictures have a scatter of their own.
 */
export function* drawnFrames(world: FilmWorld, script: Script, seed: number): Generator<Uint8Array> {
  const { widthPx: width, heightPx: height } = world.camera
  const exactWorld: FilmWorld = { ...world, followPx: 0, memory: 0 }
  const base = backdrop(world)
  const grain = Int8Array.from({ length: 1 << 17 }, (_, i) => {
    let sum = -6
    for (let k = 0; k < 12; k++) sum += Math.abs(Math.sin((i * 12 + k + 1) * 12.9898 + seed) * 43_758.5453) % 1
    return Math.round(NOISE * sum)
  })
  const level = new Uint8Array(width * height)
  let count = 0
  for (const { timeS, places } of filmOf(exactWorld, script, seed)) {
    const field = base.slice()
    for (const name of SPOTS) {
      const at = places[name]
      // A hand over the sticker is a soft dark patch.
      const size = sizeAt(world, name)
      if (at) {
        disc(field, width, at, CARD_MM * size, 215)
        disc(field, width, at, STICKER_MM * size, 35)
      } else {
        disc(field, width, appears(world, world.spots[name]), 2.2 * CARD_MM * size, 92)
      }
    }
    const light = (script.lightAt?.(timeS) ?? USUAL_LIGHT) / USUAL_LIGHT
    const from = (count * 7919) % grain.length
    for (let i = 0; i < field.length; i++) level[i] = light * field[i]! + grain[(from + i) % grain.length]! + 0.5
    yield level
    count += 1
  }
}

/** Writes the film. */
export function writeFilm(file: string, world: FilmWorld, script: Script, seed: number): void {
  const { widthPx: width, heightPx: height } = world.camera
  const handle = openSync(file, 'w')
  writeSync(handle, `YUV4MPEG2 W${width} H${height} F${world.framesPerS}:1 Ip A1:1 C420jpeg\n`)
  const chroma = new Uint8Array(2 * (width / 2) * (height / 2)).fill(128)
  for (const level of drawnFrames(world, script, seed)) {
    writeSync(handle, 'FRAME\n')
    writeSync(handle, level)
    writeSync(handle, chroma)
  }
  closeSync(handle)
}

/** px per mm at a spot. */
function sizeAt(world: FilmWorld, name: SpotName): number {
  const { x, y, z } = world.spots[name]
  const [a, b] = [appears(world, { x: x - 1, y, z }), appears(world, { x: x + 1, y, z })]
  return Math.hypot(b.x - a.x, b.y - a.y) / 2
}

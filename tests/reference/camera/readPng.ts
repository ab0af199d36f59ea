/** Reads an 8-bit grey PNG (ISO/IEC 15948), as OpenCV writes it, for tests on real photos. */
import { readFileSync } from 'node:fs'
import { inflateSync } from 'node:zlib'

export interface Grey { readonly width: number; readonly height: number; readonly data: Uint8Array }

export function readPng(file: URL): Grey {
  const bytes = readFileSync(file)
  const width = bytes.readUInt32BE(16)
  const height = bytes.readUInt32BE(20)
  if (bytes[24] !== 8 || bytes[25] !== 0) throw new Error('an 8-bit grey PNG is needed')
  const packed: Buffer[] = []
  for (let at = 8; at < bytes.length;) {
    const length = bytes.readUInt32BE(at)
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT') packed.push(bytes.subarray(at + 8, at + 8 + length))
    at += 12 + length
  }
  const lines = inflateSync(Buffer.concat(packed))
  const data = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    const filter = lines[y * (width + 1)]!
    for (let x = 0; x < width; x++) {
      const left = x > 0 ? data[y * width + x - 1]! : 0
      const up = y > 0 ? data[(y - 1) * width + x]! : 0
      const corner = x > 0 && y > 0 ? data[(y - 1) * width + x - 1]! : 0
      data[y * width + x] = lines[y * (width + 1) + 1 + x]! + predicted(filter, left, up, corner)
    }
  }
  return { width, height, data }
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  if (filter === 1) return left
  if (filter === 2) return up
  if (filter === 3) return (left + up) >> 1
  if (filter !== 4) return 0
  const guess = left + up - corner
  const [a, b, c] = [left, up, corner].map((each) => Math.abs(guess - each)) as [number, number, number]
  return a <= b && a <= c ? left : b <= c ? up : corner
}

/** Icon files of the systems, put together from PNG pictures. */

/** Kinds of pictures in an icns file by side, px (Apple's icon image format; from memory). */
const ICNS_TYPES: Readonly<Record<number, string>> = { 32: 'ic11', 64: 'ic12', 128: 'ic07', 256: 'ic08', 512: 'ic09', 1024: 'ic10' }

/** Sides of the pictures that the icon files need, px. */
export const ICON_SIDES_PX = [16, 32, 48, 64, 128, 256, 512, 1024] as const

/** Largest side that an ico file can name, px. */
const ICO_MOST_PX = 256

export interface IconPicture { sidePx: number; png: Buffer }

/** The icon file of macOS. */
export function icns(pictures: readonly IconPicture[]): Buffer {
  const entries = pictures.filter(({ sidePx }) => sidePx in ICNS_TYPES).map(({ sidePx, png }) => {
    const head = Buffer.alloc(8)
    head.write(ICNS_TYPES[sidePx] ?? '', 'latin1')
    head.writeUInt32BE(png.length + 8, 4)
    return Buffer.concat([head, png])
  })
  const body = Buffer.concat(entries)
  const head = Buffer.alloc(8)
  head.write('icns', 'latin1')
  head.writeUInt32BE(body.length + 8, 4)
  return Buffer.concat([head, body])
}

/** The icon file of Windows; each picture is a PNG, as it may be since Windows Vista. */
export function ico(pictures: readonly IconPicture[]): Buffer {
  const taken = pictures.filter(({ sidePx }) => sidePx <= ICO_MOST_PX)
  const head = Buffer.alloc(6 + 16 * taken.length)
  head.writeUInt16LE(1, 2)
  head.writeUInt16LE(taken.length, 4)
  let at = head.length
  taken.forEach(({ sidePx, png }, index) => {
    const entry = 6 + 16 * index
    // A side of 256 is written as 0.
    head.writeUInt8(sidePx % ICO_MOST_PX, entry)
    head.writeUInt8(sidePx % ICO_MOST_PX, entry + 1)
    head.writeUInt16LE(1, entry + 4)
    head.writeUInt16LE(32, entry + 6)
    head.writeUInt32LE(png.length, entry + 8)
    head.writeUInt32LE(at, entry + 12)
    at += png.length
  })
  return Buffer.concat([head, ...taken.map((each) => each.png)])
}

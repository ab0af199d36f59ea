/** `npm run signs`: makes the small face of signs anew from an open one, with just the signs in `SIGNS`. */
import { readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'
import subset from 'subset-font'
import { SIGNS } from '@renderer/look/faceRanges'

const SOURCE = createRequire(import.meta.url)
  .resolve('@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2')
const MADE = fileURLToPath(new URL('../../renderer/look/signs.woff2', import.meta.url))

const face = await subset(readFileSync(SOURCE), SIGNS, { targetFormat: 'woff2' })
writeFileSync(MADE, face)
console.log(`${[...SIGNS].length} signs, ${face.length} bytes`)

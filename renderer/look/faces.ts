/**
 * The faces of the window, its charts and the report: ours on every machine, so that what fits here fits there.
 * Sofia Sans runs, its narrower sister stands on plates; what neither has (arrows, marks, ≤) is in a small face of
 * signs, made by `npm run signs`. All are under the SIL Open Font License; their texts go along with the program.
 */
import plateGreek from '@fontsource-variable/sofia-sans-semi-condensed/files/sofia-sans-semi-condensed-greek-wght-normal.woff2?url'
import plateMore from '@fontsource-variable/sofia-sans-semi-condensed/files/sofia-sans-semi-condensed-latin-ext-wght-normal.woff2?url'
import plateLatin from '@fontsource-variable/sofia-sans-semi-condensed/files/sofia-sans-semi-condensed-latin-wght-normal.woff2?url'
import textGreek from '@fontsource-variable/sofia-sans/files/sofia-sans-greek-wght-normal.woff2?url'
import textMore from '@fontsource-variable/sofia-sans/files/sofia-sans-latin-ext-wght-normal.woff2?url'
import textLatin from '@fontsource-variable/sofia-sans/files/sofia-sans-latin-wght-normal.woff2?url'
import { BASIC_LATIN, GREEK, MORE_LATIN, SIGN_RANGE } from './faceRanges'
import signs from './signs.woff2?url'

/** One file of a face, and the characters that are looked for in it. */
export interface FaceFile {
  readonly family: string
  readonly url: string
  /** As in CSS `unicode-range`. */
  readonly range: string
  /** As in CSS `font-weight`: one, or from and to. */
  readonly weight: string
}

const ANY = '1 1000'

/** Running text, and what its report needs. */
export const TEXT_FACE: readonly FaceFile[] = [
  { family: 'Sofia Sans', url: textLatin, range: BASIC_LATIN, weight: ANY },
  { family: 'Sofia Sans', url: textMore, range: MORE_LATIN, weight: ANY },
  { family: 'Sofia Sans', url: textGreek, range: GREEK, weight: ANY },
  { family: 'Squatbench Signs', url: signs, range: SIGN_RANGE, weight: '400' },
]
const PLATE_FACE: readonly FaceFile[] = [
  { family: 'Sofia Sans Semi Condensed', url: plateLatin, range: BASIC_LATIN, weight: ANY },
  { family: 'Sofia Sans Semi Condensed', url: plateMore, range: MORE_LATIN, weight: ANY },
  { family: 'Sofia Sans Semi Condensed', url: plateGreek, range: GREEK, weight: ANY },
]

/**
 * Gives the window its faces. Resolves when those are there that every screen is written in, so that what is
 * measured or drawn on a canvas is never drawn in another one; a file that can't be had keeps nobody waiting.
 */
export async function useFaces(): Promise<void> {
  const faces = [...TEXT_FACE, ...PLATE_FACE].map(({ family, url, range, weight }) => {
    const face = new FontFace(family, `url(${url})`, { unicodeRange: range, weight, display: 'block' })
    document.fonts.add(face)
    return { face, always: range === BASIC_LATIN || range === SIGN_RANGE }
  })
  await Promise.allSettled(faces.map(({ face, always }) => (always ? face.load() : null)))
}

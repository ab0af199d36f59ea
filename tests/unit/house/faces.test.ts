/** The bundled faces: they have every character that the program writes, and figures of one width. */
import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { spansOf } from '@core/report/faces'
import { openSync, type Font } from 'fontkit'
import { describe, expect, it } from 'vitest'
import { BASIC_LATIN, GREEK, MORE_LATIN, SIGN_RANGE, SIGNS } from '@renderer/look/faceRanges'

const find = createRequire(import.meta.url).resolve
const open = (file: string): Font => {
  const font = openSync(file)
  if (!('characterSet' in font)) throw new Error(`${file} holds more than one face`)
  return font
}
const cut = (face: string, part: string): Font =>
  open(find(`@fontsource-variable/${face}/files/${face}-${part}-wght-normal.woff2`))

const signs = open('renderer/look/signs.woff2')
const faces = ['sofia-sans', 'sofia-sans-semi-condensed'].map((name) => ({
  name,
  files: [
    { font: cut(name, 'latin'), range: BASIC_LATIN }, { font: cut(name, 'latin-ext'), range: MORE_LATIN },
    { font: cut(name, 'greek'), range: GREEK }, { font: signs, range: SIGN_RANGE },
  ],
}))
type Face = (typeof faces)[number]

const within = (range: string, point: number): boolean =>
  spansOf(range).some(([first, last]) => point >= first && point <= last)
/** The file that a browser looks into for a character, where that has it. */
const fileFor = ({ files }: Face, point: number): Font | undefined =>
  files.find(({ font, range }) => within(range, point) && font.characterSet.includes(point))?.font

/** What stands in the sources outside of comments, by file. */
const written = ['renderer', 'shared-core', 'seeds']
  .flatMap((room) => readdirSync(room, { recursive: true, encoding: 'utf8' }).map((file) => join(room, file)))
  .filter((file) => /\.(?:ts|vue|json)$/.test(file))
  .map((file) => ({ file, text: readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$|<!--[\s\S]*?-->/gm, '') }))

describe.each(faces)('$name', (face) => {
  it('has every character that the program writes', () => {
    expect(written.length).toBeGreaterThan(200)
    const lacking = written.flatMap(({ file, text }) =>
      [...new Set(text)].filter((each) => each > '~' && !fileFor(face, each.codePointAt(0)!))
        .map((each) => `${file}: ${each} (U+${each.codePointAt(0)!.toString(16)}): write another, or add it to SIGNS`))
    expect(lacking).toEqual([])
  })

  it('has all of Latin-1, and the letters people’s names have in the languages of Europe', () => {
    const latin = Array.from({ length: 0x100 - 0xa1 }, (_, index) => 0xa1 + index).filter((point) => point !== 0xad)
    const letters = 'ĄąĆćĘęŁłŃńÓóŚśŹźŻż ČčĎďĚěŇňŘřŠšŤťŮůŽž ŐőŰű ĞğİıŞş ĂăȘșȚț ĐđĀāĒēĢģĪīĶķĻļŅņŪū ĖėĮįŲų ŒœŸ ĠġĦħ ẞ'
    const lacking = [...latin, ...[...letters].map((each) => each.codePointAt(0)!)]
      .filter((point) => !fileFor(face, point))
    expect(lacking.map((point) => String.fromCodePoint(point))).toEqual([])
  })

  it('has figures, and figures with signs, of one width', () => {
    const { font } = face.files[0]!
    const wide = (text: string): number => font.layout(text, ['tnum']).advanceWidth
    const widths = new Set([...'0123456789'].map(wide))
    expect(widths.size).toBe(1)
    for (const sign of ['+', '−']) expect(wide(`${sign}1.75`)).toBe(wide(`${sign}8.08`))
    expect(wide('+2.5')).toBe(wide('−2.5'))
  })
})

describe('the face of signs', () => {
  it('is the one that `npm run signs` makes of the list', () => {
    expect([...SIGNS].filter((each) => !signs.characterSet.includes(each.codePointAt(0)!))).toEqual([])
    expect(signs.characterSet.filter((point) => point !== 0xffff).length).toBe([...SIGNS].length)
  })
})

it('the licence of each goes along', () => {
  for (const name of ['@fontsource-variable/sofia-sans', '@fontsource-variable/sofia-sans-semi-condensed', '@fontsource/noto-sans-math']) {
    expect(readFileSync(`node_modules/${name}/LICENSE`, 'utf8')).toContain('SIL Open Font License, Version 1.1')
  }
})

/** Nobody's work goes along without their licence. */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { licenceText } from '@electron/tools/licencePlugin'
import { SHIPPED } from '@electron/tools/shipped'

const ROOMS = ['renderer', 'shared-core', ...['main', 'preload', 'services', 'host'].map((room) => `electron/${room}`)]
const FILES = ROOMS.flatMap((room) => readdirSync(room, { recursive: true, encoding: 'utf8' }).map((file) => `${room}/${file}`))

/** What files of our own were made from, which nothing imports. */
const MADE_FROM = ['@fontsource/noto-sans-math']

/** The package of an import that is none of ours, Node's or Electron's; null for those, and for types. */
function packageOf(line: string): string | null {
  const from = /^(?:import (?!type)(?:.* from )?|\} from |export .* from )'([^']+)'|\bimport\('([^']+)'\)/.exec(line)
  const name = from?.[1] ?? from?.[2] ?? '.'
  if (/^(?:\.|\/|node:|electron$|@(?:core|electron|renderer)\/)/.test(name)) return null
  return name.split('/').slice(0, name.startsWith('@') ? 2 : 1).join('/')
}

const imported = new Set(FILES.filter((file) => /\.(?:ts|vue)$/.test(file))
  .flatMap((file) => readFileSync(file, 'utf8').split('\n').flatMap((line) => packageOf(line) ?? [])))

describe('licences', () => {
  it('are collected for every package that the program imports', () => {
    expect([...imported].sort()).toEqual(SHIPPED.filter((name) => !MADE_FROM.includes(name)))
  })

  it.each(SHIPPED)('of %s: its text is there', (name) => {
    expect(licenceText(`node_modules/${name}`).length).toBeGreaterThan(400)
  })

  it('that build on another text have that one beside them', () => {
    const text = licenceText('node_modules/libheif-js')
    expect(text).toContain('GNU LESSER GENERAL PUBLIC LICENSE')
    expect(text).toContain('"This License" refers to version 3 of the GNU General Public License.')
  })
})

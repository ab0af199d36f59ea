/** `tsx tests/harness/packaging.ts`: what `npm run package` makes here, what it checks, and what it says is missing. */
import { existsSync, readFileSync } from 'node:fs'
import { ICON_FILES } from '@electron/tools/builderConfig'
import { askedFigure, ROOT } from './asked'
import type { Figure } from './figure'
import { report } from './figure'

/** What is looked at for each system. */
const CHECKED: Readonly<Record<string, string>> = {
  Linux: 'archive, name, desktop entry, demands of its installers', macOS: 'archive, names, icon, guard of the archive', Windows: 'archive, name, icon, guard of the archive',
}

/** The packages whose licences were collected for a bundle. */
function licences(bundle: 'main' | 'renderer'): string[] {
  const text = readFileSync(`${ROOT}out/${bundle}/licences.txt`, 'utf8')
  return text.split(`${'-'.repeat(80)}\n\n`).map((each) => /^(\S+ \S+) \(/.exec(each)?.[1] ?? '').filter(Boolean)
}

/** All rows of this command. */
export function packageFigures(): Figure[] {
  let said = { code: null as number | null, text: '' }
  const made = askedFigure({
    what: 'Installers of this system, or what is missing for them',
    command: ['npm', 'run', 'package'],
    figure: (told) => {
      said = told
      const why = /Not packaged: .*?that failed here \((.*?)\)\. (.*)/.exec(told.text)
      if (told.code === 0) return 'made'
      return why === null ? null : `not made here: ${why[1]}; the command says so, and what to do`
    },
    good: ({ code }) => code === 0 || code === 2,
  })
  const packed = [...said.text.matchAll(/Own files for (\w+) (\w+): (.*)\./g)].map(([, name, arch, figure = '']): Figure => ({
    what: `Unpacked program for ${name} ${arch} around a stand-in for Electron: ${CHECKED[name ?? ''] ?? ''}`,
    figure,
    good: figure.endsWith(' 0 problems'),
  }))
  const collected = { window: licences('renderer'), program: licences('main') }
  const icons = Object.values(ICON_FILES)
  return [
    ...packed,
    {
      what: 'Packages bundled whose licences go along',
      figure: `${collected.window.length} in the window, ${collected.program.length} in the program`,
      good: packed.length === 6 && collected.window.length > 5 && collected.program.length > 0,
    },
    {
      what: 'Icon of our own, in each system’s format',
      figure: icons.map((file) => file.split('/').at(-1)).join(', '),
      good: icons.every((file) => existsSync(`${ROOT}${file}`)),
    },
    made,
  ]
}

if (import.meta.url === `file://${process.argv[1]}`) report('Packaging', packageFigures())

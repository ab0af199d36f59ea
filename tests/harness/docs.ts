/** `tsx tests/harness/docs.ts`: the pages for readers: schema as in the source, references, links, versions. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { SCHEMA_VERSION } from '@core/schema'
import { exchangeSchemaText, SCHEMA_FILE } from '@electron/tools/exchangeSchema'
import { ROOT } from './asked'
import type { Figure } from './figure'
import { report } from './figure'

const text = (path: string): string => readFileSync(join(ROOT, path), 'utf8')

function schema(): Figure {
  const published = text(SCHEMA_FILE)
  const { $defs = {} } = JSON.parse(published) as { $defs?: object }
  return {
    what: 'Exchange schema as JSON Schema, made from the zod source',
    figure: `${Object.keys($defs).length} named parts, ${published === exchangeSchemaText() ? 'same as' : 'older than'} the source`,
    good: published === exchangeSchemaText(),
  }
}

/** Every reference is cited in the text, and every citation leads to one. */
export function references(): { listed: number[]; cited: number[] } {
  const [body = '', list = ''] = text('docs/method.md').split(/^## References.*$/m)
  const numbers = (found: Iterable<RegExpMatchArray>): number[] =>
    [...new Set([...found].flatMap(([, inside = '']) => inside.match(/\d+/g) ?? []).map(Number))].sort((a, b) => a - b)
  const numbered = [...list.matchAll(/^(?:\[(\d+)\]|(\d+)\.)/gm)].map((match) => Number(match[1] ?? match[2]))
  return { listed: numbered, cited: numbers(body.matchAll(/\[(\d+(?:, (?:\d+|annex \w))*)\](?!\()/g)) }
}

function method(): Figure {
  const { listed, cited } = references()
  const loose = [...cited.filter((each) => !listed.includes(each)), ...listed.filter((each) => !cited.includes(each))]
  return {
    what: 'The page on the method: references listed, and those not cited or cited and not listed',
    figure: `${listed.length} references, ${loose.length} loose${loose.length === 0 ? '' : `: ${loose.join(', ')}`}`,
    good: listed.length > 5 && loose.length === 0,
  }
}

/** Links of every page to files of the project that are not there. */
export function deadLinks(): { links: number; dead: string[] } {
  const pages = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...markdownIn('docs')]
  const links = pages.flatMap((page) => [...text(page).matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g)]
    .map(([, target = '']) => target).filter((target) => !/^[a-z]+:/.test(target))
    .map((target) => ({ page, target })))
  const dead = links.filter(({ page, target }) => !existsSync(join(ROOT, dirname(page), target)))
  return { links: links.length, dead: dead.map(({ page, target }) => `${page} to ${target}`) }
}

const markdownIn = (folder: string): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.md')).map((file) => `${folder}/${file.replaceAll('\\', '/')}`)

/** Commands that a page or the checks of each change name as `npm run NAME` and that are not there. */
export function deadCommands(): { named: number; dead: string[] } {
  const { scripts } = JSON.parse(text('package.json')) as { scripts: Record<string, string> }
  const named = ['README.md', 'DEVELOPERS.md', '.github/workflows/checks.yml', ...markdownIn('docs')]
    .flatMap((page) => [...text(page).matchAll(/npm run ([\w:]+)/g)].map(([, name = '']) => name))
  return { named: new Set(named).size, dead: [...new Set(named)].filter((name) => !(name in scripts)) }
}

/** The version of the program and of its files as the page of changes tells them. */
export function changes(): { version: string; told: boolean } {
  const { version } = JSON.parse(text('package.json')) as { version: string }
  const log = text('CHANGELOG.md')
  return { version, told: log.includes(`\n## ${version}`) && log.includes(`File version ${SCHEMA_VERSION}`) }
}

/** All rows of this command. */
export function docFigures(): Figure[] {
  const { links, dead } = deadLinks()
  const commands = deadCommands()
  const { version, told } = changes()
  return [
    schema(),
    {
      what: 'CHANGELOG.md tells this version and its file version',
      figure: `${version}, file version ${SCHEMA_VERSION}${told ? '' : ': not told'}`,
      good: told,
    },
    method(),
    { what: 'Links between pages and files', figure: [`${links} links, ${dead.length} dead`, ...dead].join('; '), good: dead.length === 0 },
    {
      what: 'Commands that pages and the checks of each change name',
      figure: [`${commands.named} commands, ${commands.dead.length} not there`, ...commands.dead].join('; '),
      good: commands.dead.length === 0,
    },
  ]
}

if (import.meta.url === `file://${process.argv[1]}`) report('Pages', docFigures())

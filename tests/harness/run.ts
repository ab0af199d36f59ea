/**
 * `npm run robustness`: every robustness command in full; their figures become
 * `docs/evidence/robustness.md`. Takes about an hour. `--only NAME` runs one and renews its rows only.
 */
import { readFile, writeFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { fileFigures } from './attacks/files'
import { typingKillFigures } from './attacks/kills'
import { mutantFigures } from './attacks/mutants'
import { crashFigures } from './crash'
import { docFigures } from './docs'
import { faultFigures } from './faults'
import type { Figure } from './figure'
import { report } from './figure'
import { fuzzFigures } from './fuzz/run'
import { migrationFigures } from './migrations'
import { oddFigures } from './odd'
import { packageFigures } from './packaging'
import { powerCutFigures } from './powerCut'
import { qualityFigures } from './quality'
import { scaleFigures } from './scale'
import { securityFigures } from './security'
import { soakFigures } from './soak'
import { windowFigures } from './window'

type Run = () => Figure[] | Promise<Figure[]>

/** The parts of the page, and the commands whose rows each holds. */
const PARTS: readonly { title: string; commands: Readonly<Record<string, Run>> }[] = [
  {
    title: 'Loses nothing',
    commands: {
      crash: () => crashFigures(500, 1, 200), kills: () => typingKillFigures({ host: 200 }),
      pageKills: () => typingKillFigures({ page: 50 }), browserKills: () => typingKillFigures({ browser: 50 }),
      faults: faultFigures, power: () => powerCutFigures(20), odd: oddFigures,
    },
  },
  { title: 'Old and new files', commands: { migrations: migrationFigures } },
  { title: 'Fuzzing', commands: { fuzz: () => fuzzFigures(100_000, 1), mutants: () => mutantFigures(5000, 1), files: () => fileFigures(200, 1) } },
  { title: 'Lets no one in', commands: { security: securityFigures } },
  {
    title: 'Scale',
    commands: {
      scale: () => scaleFigures(1000, 50), window: () => windowFigures(1000, 50), soak: () => soakFigures(8),
    },
  },
  { title: 'Packaging', commands: { package: packageFigures } },
  { title: 'Care for the code', commands: { quality: qualityFigures } },
  { title: 'Pages for readers', commands: { docs: docFigures } },
]

const HEAD = `# Robustness: what was tried and what came out

Made by \`npm run robustness\`; each row says the command that renews it. Times depend on the machine; counts do not,
but for where the kills fall.
`

const TABLE = '| what | figure | as it must be | command |\n|---|---|---|---|'

const PAGE = new URL('../../docs/evidence/robustness.md', import.meta.url)

const commandOf = (name: string): string => `\`npm run robustness -- --only ${name}\``

const row = (name: string, { what, figure, good }: Figure): string =>
  `| ${what} | ${figure.replaceAll('|', '/')} | ${good ? 'yes' : '**no**'} | ${commandOf(name)} |`

/** The rows that stand on the page for a command. */
async function standing(name: string): Promise<string[]> {
  const page = await readFile(PAGE, 'utf8').catch(() => '')
  return page.split('\n').filter((line) => line.endsWith(`| ${commandOf(name)} |`))
}

async function rowsOf(name: string, run: Run): Promise<string[]> {
  console.log(`\n== ${name}`)
  const figures = await run()
  report(name, figures)
  return figures.map((figure) => row(name, figure))
}

const { values } = parseArgs({ options: { only: { type: 'string' } } })
const names = PARTS.flatMap((part) => Object.keys(part.commands))
if (values.only !== undefined && !names.includes(values.only)) throw new Error(`--only takes one of ${names.join(', ')}`)

const wrongIn = (rows: readonly string[]): number => rows.filter((each) => each.includes('| **no** |')).length

/** One line for each part: how many of its rows are as they must be. */
function summary(parts: readonly { title: string; rows: readonly string[] }[]): string {
  const lines = parts.map(({ title, rows }) =>
    `| [${title}](#${title.toLowerCase().replaceAll(' ', '-')}) | ${rows.length} | ${rows.length - wrongIn(rows)} |`)
  const all = parts.flatMap((part) => part.rows)
  return ['| part | rows | as they must be |', '|---|---|---|', ...lines, `| all | ${all.length} | ${all.length - wrongIn(all)} |`, '']
    .join('\n')
}

/** Writes the page anew after each command, so that a run broken off keeps what it found. */
async function renew(name: string, run: Run): Promise<void> {
  const made = await rowsOf(name, run)
  const parts: { title: string; rows: string[] }[] = []
  for (const { title, commands } of PARTS) {
    const rows: string[] = []
    for (const each of Object.keys(commands)) rows.push(...each === name ? made : await standing(each))
    if (rows.length > 0) parts.push({ title, rows })
  }
  const tables = parts.map(({ title, rows }) => `## ${title}\n\n${TABLE}\n${rows.join('\n')}\n`)
  await writeFile(PAGE, [HEAD, summary(parts), ...tables].join('\n'))
}

for (const { commands } of PARTS) {
  for (const [name, run] of Object.entries(commands)) {
    if (values.only === undefined || values.only === name) await renew(name, run)
  }
}

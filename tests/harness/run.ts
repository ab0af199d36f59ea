/**
 * `npm run robustness`: every robustness command in full; their figures become
 * `docs/evidence/robustness.md`. Takes half an hour. `--only NAME` runs one and renews its rows only.
 */
import { readFile, writeFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { crashFigures } from './crash'
import { faultFigures } from './faults'
import type { Figure } from './figure'
import { report } from './figure'
import { fuzzFigures } from './fuzz/run'
import { powerCutFigures } from './powerCut'
import { qualityFigures } from './quality'
import { scaleFigures } from './scale'
import { soakFigures } from './soak'

const COMMANDS: Record<string, { title: string; run: () => Promise<Figure[]> }> = {
  crash: { title: 'The host killed, two writers', run: () => crashFigures(500, 1) },
  faults: { title: 'Faults of the disk', run: faultFigures },
  power: { title: 'Power cuts', run: () => powerCutFigures(20) },
  fuzz: { title: 'Fuzzing', run: () => fuzzFigures(100_000, 1) },
  scale: { title: 'Scale', run: () => scaleFigures(1000, 50) },
  soak: { title: 'Long use', run: () => soakFigures(8) },
  quality: { title: 'Care for the code', run: () => Promise.resolve(qualityFigures()) },
}

const HEAD = `# Robustness: what was tried and what came out

Made by \`npm run robustness\`. Times depend on the machine; counts do not, but for where the kills fall.

| what | figure | as it must be | command |
|---|---|---|---|
`

const PAGE = new URL('../../docs/evidence/robustness.md', import.meta.url)

const commandOf = (name: string): string => `\`npm run robustness -- --only ${name}\``

const row = (name: string, { what, figure, good }: Figure): string =>
  `| ${what} | ${figure} | ${good ? 'yes' : '**no**'} | ${commandOf(name)} |`

/** The rows that stand on the page for a command. */
async function standing(name: string): Promise<string[]> {
  const page = await readFile(PAGE, 'utf8').catch(() => '')
  return page.split('\n').filter((line) => line.endsWith(`| ${commandOf(name)} |`))
}

const { values } = parseArgs({ options: { only: { type: 'string' } } })
if (values.only !== undefined && !Object.hasOwn(COMMANDS, values.only)) {
  throw new Error(`--only takes one of ${Object.keys(COMMANDS).join(', ')}`)
}

const rows: string[] = []
for (const [name, { title, run }] of Object.entries(COMMANDS)) {
  if (values.only !== undefined && values.only !== name) {
    rows.push(...await standing(name))
    continue
  }
  const figures = await run()
  report(title, figures)
  rows.push(...figures.map((figure) => row(name, figure)))
}
await writeFile(PAGE, `${HEAD}${rows.join('\n')}\n`)

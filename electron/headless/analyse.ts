/**
 * `npm run analyse -- FILE [--json] [--speed MS]...`: the main job on an exchange file without a
 * window. Writes nothing but its output. Exit code 0: done; 2: bad input, said what and where.
 */
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { openExchangeText, newerWords, type Exchange } from '@core/schema'
import { asJson } from './asJson'
import { asTable } from './asTable'

const HELP = `Usage: npm run analyse -- FILE [options]

Reads an exchange file and prints the axle curves, the load of each run and what follows from them.

  --json         JSON instead of tables; units stand in the keys
  --speed MS     road speed to predict for, m/s; may be given more than once
  --help         this text

Exit code 0 when done, 2 on bad input. Nothing is written.`

/** Bad input: what, where and what to do. */
class BadInput extends Error {}

function readExchange(file: string): Exchange {
  const opening = openExchangeText(readText(file))
  switch (opening.kind) {
    case 'opened': return opening.document
    case 'newer': throw new BadInput(`${file}: ${newerWords(opening.version)}`)
    case 'refused': {
      const lines = opening.problems.map(({ where, what }) => `  ${where}: ${what}`)
      const more = opening.total > opening.problems.length ? [`  and ${opening.total - opening.problems.length} more`] : []
      throw new BadInput([`${file} is no exchange file that can be read:`, ...lines, ...more].join('\n'))
    }
  }
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code === 'ENOENT' ? 'there is no such file' : (error as Error).message
    throw new BadInput(`${file}: ${why}. Give the path of an exchange file, such as seeds/demo.json`)
  }
}

function readSpeeds(typed: readonly string[] | undefined): readonly number[] {
  if (!typed) return DEFAULT_OPTIONS.speedsMs
  return typed.map((text) => {
    const speedMs = Number(text)
    if (!(speedMs > 0 && speedMs <= 150)) throw new BadInput(`--speed ${text}: give a speed in m/s above 0, up to 150`)
    return speedMs
  })
}

function options() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: { json: { type: 'boolean' }, speed: { type: 'string', multiple: true }, help: { type: 'boolean' } },
    })
  } catch (error) {
    throw new BadInput(`${(error as Error).message}\n\n${HELP}`)
  }
}

function main(): string {
  const { values, positionals } = options()
  if (values.help) return HELP
  const [file, extra] = positionals
  if (file === undefined || extra !== undefined) throw new BadInput(`Give one exchange file.\n\n${HELP}`)
  const exchange = readExchange(file)
  const analysis = analyse(exchange, { ...DEFAULT_OPTIONS, speedsMs: readSpeeds(values.speed) })
  return values.json ? JSON.stringify(asJson(exchange, analysis), null, 2) : asTable(exchange, analysis)
}

try {
  process.stdout.write(`${main()}\n`)
} catch (error) {
  if (!(error instanceof BadInput)) throw error
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 2
}

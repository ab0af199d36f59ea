/**
 * `npm run analyse -- FILE [options]`: the main job on an exchange file without a window. Writes
 * nothing but its output. Exit code 0: done; 1: a part could not be worked out, said which;
 * 2: bad input, said what and where.
 */
import { readFileSync } from 'node:fs'
import { openExchangeText, newerWords, type Exchange } from '@core/schema'
import { asJson } from './asJson'
import { asTable } from './asTable'
import { BadInput, HELP, readOptions } from './options'
import { exitCodeOf, resultsOf } from './results'

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

function main(): string {
  const options = readOptions(process.argv.slice(2))
  if (options === 'help') return HELP
  const results = resultsOf(readExchange(options.file), options)
  process.exitCode = exitCodeOf(results)
  return options.json ? JSON.stringify(asJson(results), null, 2) : asTable(results)
}

try {
  process.stdout.write(`${main()}\n`)
} catch (error) {
  if (!(error instanceof BadInput)) throw error
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 2
}

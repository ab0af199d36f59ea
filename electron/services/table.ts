/** What stands behind each name of the service table. Both transports call this and nothing else. */
import { MAX_EXCHANGE_CHARACTERS, newerWords, openExchangeText, readJson } from '@core/schema'
import type { Exchange } from '@core/schema'
import { DEFAULT_PREFERENCES, preferences } from '@core/services'
import type { Preferences, ServiceInput, ServiceName, ServiceOutput } from '@core/services'
import { ServiceFailure } from './failure'
import type { ProfileLibrary } from './library'

/** One function for each service of the contract. Inputs are parsed already. */
export type ServiceTable = { [N in ServiceName]: (input: ServiceInput<N>) => Promise<ServiceOutput<N>> }

export interface TableParts {
  library: ProfileLibrary
  version: string
  transport: ServiceOutput<'app.info'>['transport']
  /** Prints a complete HTML document; null where there is nothing to print with. */
  printPdf: ((html: string) => Promise<Uint8Array>) | null
  /** Puts tables into a folder; null where the window's browser downloads them. */
  saveTables: ServiceTable['report.tables'] | null
}

/** Builds the table over a library. */
export function createTable({ library, version, transport, printPdf, saveTables }: TableParts): ServiceTable {
  return {
    'app.info': async () =>
      ({ version, transport, canMakePdf: printPdf !== null, libraryWritable: await library.isWritable() }),
    'preferences.read': async () => preferencesOf(await library.readPreferences()),
    'preferences.save': async (input) => {
      await library.savePreferences(input)
      return input
    },
    'library.identity': () => Promise.resolve({ libraryId: library.id }),
    'library.list': () => library.list(),
    'library.open': ({ chassisId }) => library.open(chassisId),
    'library.revisions': ({ chassisId }) => library.revisions(chassisId),
    'library.saveChassis': ({ chassis, baseRevision }) => library.saveChassis(chassis, baseRevision),
    'library.saveSession': ({ session, baseRevision }) => library.saveSession(session, baseRevision),
    'library.removeChassis': async ({ chassisId }) => {
      await library.removeChassis(chassisId)
      return {}
    },
    'library.removeSession': async ({ chassisId, sessionId }) => {
      await library.removeSession(chassisId, sessionId)
      return {}
    },
    'library.restore': async (input) => {
      await library.restore(input)
      return {}
    },
    'exchange.import': ({ text }) => library.import(exchangeOf(text)),
    'exchange.export': ({ chassisId }) => library.export(chassisId),
    'report.pdf': async ({ html }) => {
      if (printPdf === null) {
        throw new ServiceFailure(
          'refused', 'Only the desktop window makes a PDF by itself. Use the browser’s own print command here.',
        )
      }
      return { base64: Buffer.from(await printPdf(html)).toString('base64') }
    },
    'report.tables': async (input) => {
      if (saveTables === null) {
        throw new ServiceFailure('refused', 'Only the desktop window asks for a folder. The browser downloads each table.')
      }
      return saveTables(input)
    },
  }
}

function exchangeOf(text: string): Exchange {
  const opening = openExchangeText(text)
  if (opening.kind === 'opened') return opening.document
  if (opening.kind === 'newer') throw new ServiceFailure('newerVersion', `This file was ${newerWords(opening.version)}.`)
  const count = opening.total === 1 ? 'one place does' : `${opening.total} places do`
  throw new ServiceFailure(
    'badInput',
    text.length > MAX_EXCHANGE_CHARACTERS
      ? 'This file is too large to be an exchange file. Nothing was imported.'
      : `This is not an exchange file that can be read: ${count} not fit. Mend the named places; nothing was imported.`,
    opening.problems,
  )
}

/** Stored preferences, each key on its own: one that doesn't fit falls back, the others stay. */
function preferencesOf(text: string | null): Preferences {
  const json = readJson(text ?? '')
  const stored = json.ok && typeof json.value === 'object' && json.value !== null ? json.value : {}
  const fitting = Object.entries(preferences.shape)
    .flatMap(([key, schema]) => {
      const parsed = schema.safeParse((stored as Record<string, unknown>)[key])
      return parsed.success ? [[key, parsed.data]] : []
    })
  return { ...DEFAULT_PREFERENCES, ...Object.fromEntries(fitting) }
}

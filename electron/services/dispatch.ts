/** The one door to the table: parses what comes in and what goes out, and answers every failure in words. */
import type { z } from 'zod'
import { problemsOf } from '@core/schema'
import { services } from '@core/services'
import type { Answer, ServiceName } from '@core/services'
import { asServiceError } from './failure'
import type { ServiceTable } from './table'

/** Calls a service by name. Never throws. */
export type Dispatch = (name: unknown, input: unknown) => Promise<Answer<unknown>>

/** What each service does, in the words of a message that begins "Failed while". */
const DOING: Record<ServiceName, string> = {
  'app.info': 'asking about the program',
  'preferences.read': 'reading the preferences',
  'preferences.save': 'saving the preferences',
  'library.identity': 'asking which library this is',
  'library.list': 'listing the chassis',
  'library.open': 'opening the chassis',
  'library.revisions': 'looking for changes of another window',
  'library.saveChassis': 'saving the chassis',
  'library.saveSession': 'saving the session',
  'library.removeChassis': 'removing the chassis',
  'library.removeSession': 'removing the session',
  'library.restore': 'taking the earlier copy',
  'exchange.import': 'importing the file',
  'exchange.export': 'exporting the chassis',
  'report.pdf': 'printing the report',
  'report.tables': 'saving the tables',
}

/** True for a name of the contract (and for nothing inherited from an object). */
export const isServiceName = (name: unknown): name is ServiceName =>
  typeof name === 'string' && Object.hasOwn(services, name)

/** Puts the door before a table. */
export function createDispatch(table: ServiceTable): Dispatch {
  return async (name, input) => {
    if (!isServiceName(name)) {
      const problems = [{ where: 'name', what: 'is not in the table of services' }]
      return { ok: false, error: { code: 'refused', message: 'There is no such service.', problems } }
    }
    try {
      const schema: { input: z.ZodType; output: z.ZodType } = services[name]
      const parsed = schema.input.safeParse(input)
      if (!parsed.success) {
        const message = `Failed while ${DOING[name]}: what was sent does not fit. Correct the named places and try again.`
        return { ok: false, error: { code: 'badInput', message, problems: problemsOf(parsed.error).problems } }
      }
      const work = table[name] as (input: unknown) => Promise<unknown>
      const output = schema.output.safeParse(await work(parsed.data))
      if (output.success) return { ok: true, value: output.data }
      const message = `Failed while ${DOING[name]}: the answer does not fit. This is a mistake in Squatbench; please report it.`
      return { ok: false, error: { code: 'failed', message, problems: problemsOf(output.error).problems } }
    } catch (error) {
      return { ok: false, error: asServiceError(error, DOING[name]) }
    }
  }
}

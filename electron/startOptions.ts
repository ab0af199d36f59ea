/** What `npm start` can be told. */
import { parseArgs } from 'node:util'
import { USUAL_PORT } from './host'

export interface StartOptions {
  browser: boolean
  open: boolean
  /** Null for the usual one. */
  port: number | null
  library: string | null
  /** Fetch Electron's binary even where that failed a short while ago. */
  fetch: boolean
  help: boolean
}

export const START_HELP = `npm start -- [options]
  --browser       use the browser even where the desktop window can be had
  --no-open       print the address, but open no browser
  --port N        port of the loopback address (else ${USUAL_PORT}, or any free one where that is taken)
  --library DIR   folder of the profile library
  --fetch         fetch Electron’s binary again, if that failed before
  --help          these lines`

/** Reads the options. @throws Error in words where one is unknown or does not fit */
export function startOptions(args: string[]): StartOptions {
  const { values } = parseArgs({
    args,
    options: {
      browser: { type: 'boolean', default: false },
      'no-open': { type: 'boolean', default: false },
      port: { type: 'string' },
      library: { type: 'string' },
      fetch: { type: 'boolean', default: false },
      help: { type: 'boolean', default: false },
    },
  })
  const port = values.port === undefined ? null : Number(values.port)
  if (port !== null && (!Number.isInteger(port) || port < 0 || port > 65_535)) throw new Error('--port takes a number from 0 to 65535')
  return {
    browser: values.browser, open: !values['no-open'], port, library: values.library ?? null,
    fetch: values.fetch, help: values.help,
  }
}

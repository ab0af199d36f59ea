/** The built app for one test file: a library, the started host and a browser, ended when the file is done. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { launchBrowser } from './browser'
import { enter } from './keyboard'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

export interface AppUnderTest {
  browser: Browser
  host: StartedHost
  /** Ends the host as Ctrl-C does and starts it again on the same library. Gives the exit code. */
  restart(): Promise<number | null>
}

/** Call at the top of a test file. Its fields are there once the tests run. */
export function useApp(): AppUnderTest {
  let library: Awaited<ReturnType<typeof libraryFolderForTest>> | undefined
  const app = {
    restart: async () => {
      const code = await app.host.stop()
      app.host = await startHostFor(library!.folder)
      return code
    },
  } as AppUnderTest
  beforeAll(async () => {
    library = await libraryFolderForTest()
    app.browser = await launchBrowser()
    app.host = await startHostFor(library.folder)
  })
  afterAll(async () => {
    await app.browser?.close()
    await app.host?.stop()
    await library?.remove()
  })
  return app
}

/** Opens the app's address in a page and the demo car in it, by keyboard; ends on its first screen. */
export async function openDemo(page: Page, { host }: AppUnderTest): Promise<void> {
  await page.goto(host.address)
  await enter(page, /^Open the demo car$/)
  await page.getByRole('heading', { level: 1, name: 'Overview' }).waitFor()
}

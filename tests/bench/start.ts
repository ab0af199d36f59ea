/**
 * `npm run bench:start`: from opening the printed address of the running app to the first usable screen, in
 * a Chromium that knows nothing of it yet; and the size of what is fetched until then. Median of five.
 */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { launchBrowser } from '../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'

const RUNS = 5
const MOST_MS = 1500
const MOST_KB = 300

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!

interface Run { readonly usableMs: number; readonly wallMs: number; readonly files: readonly string[] }

async function once(folder: string): Promise<Run> {
  const host = await startHostFor(folder)
  const browser = await launchBrowser()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } })
    const files = new Set<string>()
    page.on('response', (response) => {
      const { pathname } = new URL(response.url())
      if (response.status() === 200 && !pathname.startsWith('/service/')) files.add(pathname === '/' ? '/index.html' : pathname)
    })
    const startedMs = performance.now()
    await page.goto(host.address)
    await page.waitForFunction(() => performance.getEntriesByName('squatbench:usable').length > 0, null, { polling: 5 })
    const wallMs = performance.now() - startedMs
    const usableMs = await page.evaluate(() => performance.getEntriesByName('squatbench:usable')[0]!.startTime)
    return { usableMs, wallMs, files: [...files] }
  } finally {
    await browser.close()
    await host.stop()
  }
}

const library = await libraryFolderForTest()
const runs: Run[] = []
try {
  for (let run = 0; run < RUNS; run++) runs.push(await once(library.folder))
} finally {
  await library.remove()
}
const built = fileURLToPath(new URL('../../out/renderer', import.meta.url))
const kB = runs[0]!.files.reduce((sum, file) => sum + gzipSync(readFileSync(`${built}${file}`)).length, 0) / 1000
const [usable, wall] = [median(runs.map((run) => run.usableMs)), median(runs.map((run) => run.wallMs))]
const each = (pick: (run: Run) => number): string => runs.map((run) => pick(run).toFixed(0)).join(', ')
console.log(`First usable screen after navigation: median ${usable.toFixed(0)} ms of ${each((run) => run.usableMs)} (wished: under ${MOST_MS})`)
console.log(`The same on the clock, with the way in by the token: median ${wall.toFixed(0)} ms of ${each((run) => run.wallMs)}`)
console.log(`Fetched until then: ${runs[0]!.files.length} files, ${kB.toFixed(1)} kB gzipped (wished: under ${MOST_KB})`)
process.exitCode = wall < MOST_MS && kB < MOST_KB ? 0 : 1

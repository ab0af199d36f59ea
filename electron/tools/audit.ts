/**
 * `npm run audit`: the dependencies. First what can be told here: each comes from the public registry and has
 * a checksum, and none is needed at run time beyond what was bundled. Then the registry is asked for the newest
 * Electron and for known weaknesses. Exit code 0 nothing found, 1 something found, 2 the registry could not be asked.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { z } from 'zod'
import { electronProblem } from './electronVersion'

const lock = z.object({
  packages: z.record(z.string(), z.object({
    version: z.string().optional(), resolved: z.string().optional(), integrity: z.string().optional(),
  })),
})
const manifest = z.object({ dependencies: z.record(z.string(), z.string()).optional() })
const asked = z.object({ metadata: z.object({ vulnerabilities: z.record(z.string(), z.number()) }) })

/** Where a package comes from if the lock file does not say. */
const REGISTRY = 'https://registry.npmjs.org/'

const read = (file: string): unknown => JSON.parse(readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8'))

function lockProblems(): string[] {
  const entries = Object.entries(lock.parse(read('package-lock.json')).packages).filter(([path]) => path !== '')
  const strange = entries
    .filter(([, { resolved, integrity }]) =>
      !(resolved ?? REGISTRY).startsWith(REGISTRY) || !(integrity ?? '').startsWith('sha512-'))
    .map(([path]) => `${path} comes from elsewhere or has no checksum`)
  const needed = Object.keys(manifest.parse(read('package.json')).dependencies ?? {})
    .map((name) => `${name} would be needed at run time; bundle it`)
  console.log(`${entries.length} packages in the lock file, ${strange.length} from elsewhere or without a checksum.`)
  return [...strange, ...needed]
}

/** Asks the registry for the newest Electron; null where it is still looked after or nothing could be asked. */
function oldElectron(): string | null {
  const used = lock.parse(read('package-lock.json')).packages['node_modules/electron']?.version ?? ''
  const done = spawnSync('npm', ['view', 'electron', 'dist-tags.latest'], { encoding: 'utf8', shell: process.platform === 'win32' })
  const newest = /^\d+\.\d+\.\d+/.exec(done.stdout)?.[0]
  console.log(newest === undefined ? `Electron ${used}; the registry did not name the newest.` : `Electron ${used}, newest ${newest}.`)
  return newest === undefined ? null : electronProblem(used, newest)
}

function known(): number | null {
  const done = spawnSync('npm', ['audit', '--json'], { encoding: 'utf8', shell: process.platform === 'win32' })
  try {
    const { vulnerabilities } = asked.parse(JSON.parse(done.stdout)).metadata
    const total = vulnerabilities['total'] ?? 0
    console.log(`${total} known weaknesses: ${JSON.stringify(vulnerabilities)}`)
    return total
  } catch {
    return null
  }
}

const old = oldElectron()
const problems = [...lockProblems(), ...(old === null ? [] : [old])]
for (const problem of problems.slice(0, 20)) console.log(`  ${problem}`)
const total = known()
if (total === null) console.log('The registry could not be asked for known weaknesses here; ask again where it answers.')
process.exitCode = problems.length > 0 || (total ?? 0) > 0 ? 1 : total === null ? 2 : 0

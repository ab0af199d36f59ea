/**
 * `npm run package`: packages the program for this system. Where Electron's binary or a packaging tool
 * can't be had, it says what is missing and still packs and checks the program's own files for all three systems
 * and both kinds of processors. `npm run package -- --check` does only that.
 * Exit code 0 done, 1 a check or the packaging failed, 2 something could not be fetched.
 */
import { build, Platform } from 'electron-builder'
import { ensureBuilt } from '../freshBuild'
import { builderConfig } from './builderConfig'
import { checkPackage, PLATFORMS, ROOT } from './checkPackage'
import { fetchProblem } from './fetchProblem'
import type { System } from './standIns'

const SYSTEMS: Readonly<Record<System, { name: string; can: string }>> = {
  linux: { name: 'Linux', can: 'on Linux' },
  mac: { name: 'macOS', can: 'on macOS only, where it is signed' },
  win: { name: 'Windows', can: 'on Windows, or elsewhere with Wine' },
}

/** The program for this system: the files made, or what could not be fetched. @throws every other error as it is */
async function packageForReal(): Promise<{ made: string[] } | { why: string }> {
  try {
    const targets = Platform.current().createTarget()
    return { made: await build({ projectDir: ROOT, targets, config: builderConfig() }) }
  } catch (error) {
    const why = fetchProblem(error)
    if (why === null) throw error
    return { why }
  }
}

async function checked(system: System): Promise<boolean> {
  const results = await checkPackage(system)
  for (const { arch, count, bytes, problems } of results) {
    for (const problem of problems) console.log(`  ${problem}`)
    const size = `${count} files, ${(bytes / 1e6).toFixed(2)} MB, ${problems.length} problems`
    console.log(`Own files for ${SYSTEMS[system].name} ${arch}: ${size}.`)
  }
  return results.length === 2 && results.every(({ problems }) => problems.length === 0)
}

async function run(): Promise<number> {
  ensureBuilt(ROOT)
  const good: boolean[] = []
  for (const system of Object.keys(PLATFORMS) as System[]) good.push(await checked(system))
  if (good.includes(false)) return 1
  if (process.argv.includes('--check')) return 0
  const result = await packageForReal()
  for (const { name, can } of Object.values(SYSTEMS)) console.log(`For ${name}: run this ${can}.`)
  if ('made' in result) {
    console.log(`Packaged:\n${result.made.join('\n')}`)
    return 0
  }
  console.log(
    'Not packaged: Electron’s binary and the packaging tools are fetched from their release pages, and that failed '
    + `here (${result.why}). Run this again where they can be reached, or name a mirror in ELECTRON_MIRROR.`,
  )
  return 2
}

// electron-builder's own exit hook forgets a code that is only noted, so it is handed over here.
process.exit(await run().catch((error: unknown) => {
  console.error(error)
  return 1
}))

/**
 * `npm run package`: packages the program for this system. Where Electron's binary or a packaging tool
 * can't be had, it says what is missing and still packs and checks the program's own files for all three systems.
 * `npm run package -- --check` does only that. Exit code 0 done, 1 a check failed, 2 not packaged.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, Platform } from 'electron-builder'
import { ensureBuilt } from '../freshBuild'
import { builderConfig } from './builderConfig'
import { checkPackedFiles } from './packedFiles'
import { layStandIn } from './standIns'
import type { System } from './standIns'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

const SYSTEMS: Readonly<Record<System, { name: string; platform: Platform; made: string; can: string }>> = {
  linux: { name: 'Linux', platform: Platform.LINUX, made: 'linux-unpacked', can: 'on Linux' },
  mac: { name: 'macOS', platform: Platform.MAC, made: 'mac', can: 'on macOS only, where it is signed' },
  win: { name: 'Windows', platform: Platform.WINDOWS, made: 'win-unpacked', can: 'on Windows, or elsewhere with Wine' },
}

/** The program for this system: the files made, or why there are none. */
async function packageForReal(): Promise<{ made: string[] } | { why: string }> {
  try {
    const targets = Platform.current().createTarget()
    return { made: await build({ projectDir: ROOT, targets, config: builderConfig() }) }
  } catch (error) {
    return { why: (error instanceof Error ? error.message : String(error)).split('\n')[0]?.slice(0, 300) ?? '' }
  }
}

/** Packs our own files by the same rules around an empty stand-in for Electron, and looks through them. */
async function checkFiles(system: System): Promise<boolean> {
  const { name, platform, made } = SYSTEMS[system]
  const scratch = mkdtempSync(join(tmpdir(), 'squatbench-package-'))
  try {
    const standIn = join(scratch, 'electron')
    mkdirSync(standIn)
    layStandIn(system, standIn, electronVersion())
    const config = builderConfig()
    await build({
      projectDir: ROOT,
      targets: platform.createTarget('dir'),
      config: {
        ...config,
        electronDist: standIn,
        // Fuses are set in the binary, and there is none here; nor anything to sign.
        electronFuses: null,
        mac: { ...config.mac, identity: null },
        directories: { ...config.directories, output: join(scratch, 'dist') },
      },
    })
    const { count, bytes, problems } = checkPackedFiles(system, join(scratch, 'dist', made))
    for (const problem of problems) console.log(`  ${problem}`)
    console.log(`Own files for ${name}: ${count} files, ${(bytes / 1e6).toFixed(2)} MB, ${problems.length} problems.`)
    return problems.length === 0
  } finally {
    rmSync(scratch, { recursive: true, force: true })
  }
}

function electronVersion(): string {
  return (createRequire(import.meta.url)('electron/package.json') as { version: string }).version
}

async function run(): Promise<number> {
  ensureBuilt(ROOT)
  const good: boolean[] = []
  for (const system of Object.keys(SYSTEMS) as System[]) good.push(await checkFiles(system))
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
process.exit(await run())

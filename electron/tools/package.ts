/**
 * `npm run package`: packages the program for this system. Where Electron's binary or a packaging tool
 * can't be had, it says what is missing and still packs and checks the program's own files.
 * `npm run package -- --check` does only that. Exit code 0 done, 1 a check failed, 2 not packaged.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, Platform } from 'electron-builder'
import { ensureBuilt } from '../freshBuild'
import { builderConfig } from './builderConfig'
import { checkPackedFiles } from './packedFiles'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

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
async function checkOwnFiles(): Promise<boolean> {
  const scratch = mkdtempSync(join(tmpdir(), 'squatbench-package-'))
  try {
    const standIn = join(scratch, 'electron')
    mkdirSync(join(standIn, 'resources'), { recursive: true })
    writeFileSync(join(standIn, 'electron'), '')
    writeFileSync(join(standIn, 'version'), electronVersion())
    const config = builderConfig()
    const directories = { ...config.directories, output: join(scratch, 'dist') }
    await build({
      projectDir: ROOT,
      targets: Platform.LINUX.createTarget('dir'),
      // Fuses are set in the binary, and there is none here.
      config: { ...config, electronDist: standIn, electronFuses: null, directories },
    })
    const { count, bytes, problems } = checkPackedFiles(join(scratch, 'dist', 'linux-unpacked', 'resources', 'app.asar'))
    for (const problem of problems) console.log(`  ${problem}`)
    console.log(`The program's own files: ${count} files, ${(bytes / 1e6).toFixed(2)} MB, ${problems.length} problems.`)
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
  if (!await checkOwnFiles()) return 1
  if (process.argv.includes('--check')) return 0
  const result = await packageForReal()
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

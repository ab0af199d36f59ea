/** Packs the program's own files by the same rules around an empty stand-in for Electron, and looks through them. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Arch, build, Platform } from 'electron-builder'
import type { AfterPackContext, Target } from 'electron-builder'
import { z } from 'zod'
import { builderConfig } from './builderConfig'
import { checkPackedFiles } from './packedFiles'
import type { PackedFiles } from './packedFiles'
import { layStandIn } from './standIns'
import type { System } from './standIns'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

export const PLATFORMS: Readonly<Record<System, Platform>> = {
  linux: Platform.LINUX, mac: Platform.MAC, win: Platform.WINDOWS,
}

/** The kinds of processors that a package is made for. */
const ARCHES = [Arch.x64, Arch.arm64]

export interface Checked extends PackedFiles { arch: string }

/** Packs and checks the files of one system for every kind of processor. */
export async function checkPackage(system: System): Promise<Checked[]> {
  const scratch = mkdtempSync(join(tmpdir(), 'squatbench-package-'))
  const packed: { arch: string; folder: string; problems: string[] }[] = []
  try {
    const standIn = join(scratch, 'electron')
    mkdirSync(standIn)
    layStandIn(system, standIn, electronVersion())
    const config = builderConfig()
    await build({
      projectDir: ROOT,
      targets: PLATFORMS[system].createTarget('dir', ...ARCHES),
      config: {
        ...config,
        electronDist: standIn,
        // Fuses are set in the binary, and there is none here; nor anything to sign.
        electronFuses: null,
        mac: { ...config.mac, identity: null },
        directories: { ...config.directories, output: join(scratch, 'dist') },
        afterPack: async (context) => void packed.push({
          arch: Arch[context.arch], folder: context.appOutDir, problems: await targetProblems(system, context),
        }),
      },
    })
    return packed.map(({ arch, folder, problems }) => {
      const own = checkPackedFiles(system, folder)
      return { ...own, arch, problems: [...own.problems, ...problems] }
    })
  } finally {
    rmSync(scratch, { recursive: true, force: true })
  }
}

/** What the system's installers ask for and do not find; nothing is fetched for it. */
async function targetProblems(system: System, { packager, outDir }: AfterPackContext): Promise<string[]> {
  const targets: Target[] = []
  const names = z.array(z.string()).parse(builderConfig()[system]?.target)
  packager.createTargets(names.map((name) => name.toLowerCase()), (_name, make) => targets.push(make(outDir)))
  const asked = await Promise.all(targets.map((target) => target.checkOptions().then(
    () => [], (error: unknown) => [`${target.name}: ${error instanceof Error ? error.message : String(error)}`],
  )))
  return [...asked.flat(), ...(system === 'linux' ? await entryProblems(targets) : [])]
}

/** What the packager's Linux targets hold to write the desktop entry with; not in its typings. */
interface EntryWriter { computeDesktopEntry(options: unknown): string | Promise<string>; getDesktopFileName(): string }

/** The entry must lead from a running window back to the program: by its file's name and by the window's class. */
async function entryProblems(targets: readonly Target[]): Promise<string[]> {
  const target = targets.find(({ name }) => name === 'deb') as (Target & { helper?: EntryWriter }) | undefined
  if (target?.helper === undefined) return ['there is no deb to look at the desktop entry of']
  const entry = await target.helper.computeDesktopEntry(target.options)
  return [
    ...(target.helper.getDesktopFileName() === 'squatbench' ? [] : ['the desktop entry’s file is not squatbench.desktop']),
    ...['Name=Squatbench', 'StartupWMClass=squatbench', 'Icon=squatbench']
      .filter((line) => !entry.split('\n').includes(line)).map((line) => `the desktop entry has no ${line}`),
  ]
}

function electronVersion(): string {
  return (createRequire(import.meta.url)('electron/package.json') as { version: string }).version
}

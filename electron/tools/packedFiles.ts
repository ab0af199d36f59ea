/** What a packaged program may and must hold, and what it does hold. */
import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { extractFile, getRawHeader, listPackage } from '@electron/asar'
import { NtExecutable, NtExecutableResource, Resource } from 'resedit'
import { z } from 'zod'
import { ICON_FILES } from './builderConfig'
import type { System } from './standIns'

const MUST = [
  '/package.json', '/out/main/index.js', '/out/preload/index.cjs', '/out/renderer/index.html',
  '/out/main/licences.txt', '/out/renderer/licences.txt',
]

/** Only what was built; no source, no test, no map, no package folder. */
const MAY = /^\/(?:package\.json|out(?:\/(?:main(?:\/chunks)?|preload|renderer(?:\/assets)?))?(?:\/[\w.-]+\.(?:js|cjs|css|html|json|svg|png|txt|webp|woff2))?)$/

const manifest = z.object({
  name: z.literal('squatbench'), productName: z.literal('Squatbench'), desktopName: z.literal('squatbench.desktop'),
  main: z.string(), type: z.literal('module'),
})
const DEVELOPMENT = ['devDependencies', 'scripts']

export interface PackedFiles { count: number; bytes: number; problems: string[] }

/** Where the archive lies in the folder of an unpacked program. */
const ARCHIVES: Readonly<Record<System, string>> = {
  linux: 'resources/app.asar', mac: 'Squatbench.app/Contents/Resources/app.asar', win: 'resources/app.asar',
}

/** Looks through an unpacked program; every problem is a sentence. */
export function checkPackedFiles(system: System, folder: string): PackedFiles {
  const archive = join(folder, ARCHIVES[system])
  const own = checkArchive(archive)
  const around = { linux: linuxProblems, mac: macProblems, win: winProblems }[system](folder, headerHash(archive))
  return { ...own, problems: [...own.problems, ...around] }
}

/** What a guarded archive is known by: the SHA-256 of its header (Electron's documentation, "ASAR integrity"). */
const headerHash = (archive: string): string =>
  createHash('sha256').update(getRawHeader(archive).headerString).digest('hex')

const linuxProblems = (folder: string): string[] =>
  (existsSync(join(folder, 'squatbench')) ? [] : ['there is no program named squatbench'])

function macProblems(folder: string, hash: string): string[] {
  const contents = join(folder, 'Squatbench.app', 'Contents')
  const list = readFileSync(join(contents, 'Info.plist'), 'utf8')
  const icon = /<key>CFBundleIconFile<\/key>\s*<string>([^<]+)</.exec(list)?.[1] ?? ''
  const same = icon !== '' && readFileSync(join(contents, 'Resources', icon)).equals(readFileSync(ICON_FILES.mac))
  return [
    ...(list.includes('<string>app.squatbench</string>') ? [] : ['the bundle does not have our name']),
    ...(same ? [] : ['the bundle does not have our icon']),
    ...(list.includes(hash) ? [] : ['the bundle does not guard its archive']),
  ]
}

function winProblems(folder: string, hash: string): string[] {
  const executable = NtExecutable.from(readFileSync(join(folder, 'Squatbench.exe')), { ignoreCert: true })
  const { entries } = NtExecutableResource.from(executable)
  const pictures = readFileSync(ICON_FILES.win)
  const icons = Resource.IconGroupEntry.fromEntries(entries).flatMap((group) => group.getIconItemsFromEntries(entries))
  const bytesOf = (icon: (typeof icons)[number]): Buffer => Buffer.from(icon.isRaw() ? icon.bin : icon.generate())
  const ours = icons.length > 0 && icons.every((icon) => pictures.includes(bytesOf(icon)))
  const guard = entries.find((entry) => entry.type === 'INTEGRITY')
  return [
    ...(ours ? [] : ['the program does not have our icon']),
    ...(guard !== undefined && Buffer.from(guard.bin).includes(hash) ? [] : ['the program does not guard its archive']),
  ]
}

function checkArchive(archive: string): PackedFiles {
  const files = listPackage(archive, { isPack: false }).map((file) => file.replaceAll('\\', '/'))
  const texts = (name: string): Buffer => extractFile(archive, name.slice(1))
  const problems = [
    ...MUST.filter((file) => !files.includes(file)).map((file) => `${file} is missing`),
    ...files.filter((file) => !MAY.test(file)).map((file) => `${file} does not belong there`),
  ]
  const leaves = files.filter((file) => /\.\w+$/.test(file))
  const own = JSON.parse(texts('/package.json').toString('utf8')) as object
  if (!manifest.safeParse(own).success) problems.push('package.json does not name the program and its entry')
  problems.push(...DEVELOPMENT.filter((key) => key in own).map((key) => `package.json still holds ${key}`))
  for (const file of leaves) {
    const text = texts(file).toString('utf8')
    if (/sourceMappingURL=/.test(text)) problems.push(`${file} points to a source map`)
    if (/\/node_modules\/[^\s"'`]+\.(?:ts|mjs|js)/.test(text) && file.endsWith('.js')) {
      problems.push(`${file} holds a path of the machine it was built on`)
    }
  }
  if (!/\bMIT\b/.test(texts('/out/renderer/licences.txt').toString('utf8'))) problems.push('no licence was collected')
  return { count: leaves.length, bytes: leaves.reduce((sum, file) => sum + texts(file).length, 0), problems }
}

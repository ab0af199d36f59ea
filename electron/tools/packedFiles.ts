/** What an `app.asar` may and must hold, and what it does hold. */
import { extractFile, listPackage } from '@electron/asar'
import { z } from 'zod'

const MUST = [
  '/package.json', '/out/main/index.js', '/out/preload/index.cjs', '/out/renderer/index.html',
  '/out/main/licences.txt', '/out/renderer/licences.txt',
]

/** Only what was built; no source, no test, no map, no package folder. */
const MAY = /^\/(?:package\.json|out(?:\/(?:main|preload|renderer)(?:\/assets)?)?(?:\/[\w.-]+\.(?:js|cjs|css|html|json|svg|png|txt|webp|woff2))?)$/

const manifest = z.object({ name: z.literal('squatbench'), main: z.string(), type: z.literal('module') })
const DEVELOPMENT = ['devDependencies', 'scripts']

export interface PackedFiles { count: number; bytes: number; problems: string[] }

/** Looks through an archive; every problem is a sentence. */
export function checkPackedFiles(archive: string): PackedFiles {
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

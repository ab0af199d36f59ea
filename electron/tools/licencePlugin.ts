/** Collects the licences of the packages that really went into a bundle, beside the bundle. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Plugin } from 'vite'
import { z } from 'zod'

const manifest = z.object({ name: z.string(), version: z.string(), license: z.string().optional() })

/**
 * A plugin for one bundle: writes `licences.txt`, for a worker's bundle under a name of its own
 * among the assets. A package that tells no licence ends the build.
 *
 * @param madeFrom packages out of which files of our own tree were made
 */
export function collectLicences(bundleOf: 'program' | 'worker' = 'program', madeFrom: readonly string[] = []): Plugin {
  return {
    name: 'collect-licences',
    apply: 'build',
    generateBundle(_options, bundle) {
      const modules = Object.values(bundle).flatMap((part) => (part.type === 'chunk' ? part.moduleIds : []))
      const texts = new Map(madeFrom.map((name) => join('node_modules', name)).map((folder) => [folder, licenceText(folder)]))
      for (const module of modules) {
        const folder = packageFolder(module.replace(/^\0+/, '').split('?')[0] ?? '')
        if (folder !== null && !texts.has(folder)) texts.set(folder, licenceText(folder))
      }
      const source = [...new Set(texts.values())].sort().join(`\n${'-'.repeat(80)}\n\n`)
      const place = bundleOf === 'program' ? { fileName: 'licences.txt' } : { name: 'licences.txt' }
      this.emitFile({ type: 'asset', ...place, source })
    },
  }
}

/** The folder of the package a module belongs to, or null for a module of our own. */
function packageFolder(module: string): string | null {
  const match = /^(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/.exec(module)
  return match?.[1] ?? null
}

/** The text of another licence that the Lesser General Public License is built on, and asks to have beside it. */
const GENERAL_PUBLIC = join('electron', 'tools', 'licences', 'GPL-3.0.txt')

/** Name and licence of the package in a folder, word for word. @throws where it tells none */
export function licenceText(folder: string): string {
  const { name, version, license } = manifest.parse(JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')))
  const file = readdirSync(folder).find((each) => /^(?:licen[cs]e|copying)(?:\.\w+)?$/i.test(each))
  if (license === undefined && file === undefined) throw new Error(`${name} ${version} tells no licence`)
  const head = `${name} ${version} (${license ?? 'see below'})\n\n`
  if (file === undefined) return head
  const text = `${head}${readFileSync(join(folder, file), 'utf8').trim()}\n`
  return text.includes('LESSER GENERAL PUBLIC LICENSE') ? `${text}\n${readFileSync(GENERAL_PUBLIC, 'utf8').trim()}\n` : text
}

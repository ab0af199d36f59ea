/** The catalogue: what is translated has the same places for figures, and every message can be read. */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { createI18n } from 'vue-i18n'
import { de } from '@renderer/words/de'
import { en } from '@renderer/words/en'

type Tree = { readonly [key: string]: string | Tree }

const flat = (tree: Tree, path = ''): [string, string][] => Object.entries(tree).flatMap(([key, value]) =>
  typeof value === 'string' ? [[path + key, value] as [string, string]] : flat(value, `${path}${key}.`))
const english = new Map(flat(en as unknown as Tree))
const german = flat(de as unknown as Tree)
const places = (text: string): string[] => [...new Set([...text.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!))].sort()

/** All sources of the window but the words themselves. */
function sources(folder: URL): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const url = new URL(entry.isDirectory() ? `${entry.name}/` : entry.name, folder)
    if (entry.isDirectory()) return entry.name === 'words' ? [] : sources(url)
    return /\.(ts|vue)$/.test(entry.name) ? [readFileSync(url, 'utf8')] : []
  })
}

const HOLE = String.raw`\$\{(?:[^{}]|\{[^{}]*\})*\}`
const ROOMS = Object.keys(en).join('|')
const KEY = String.raw`['"\`]((?:${ROOMS})\.(?:[\w.]|${HOLE})+)['"\`]`
const window = sources(new URL('../../../renderer/', import.meta.url)).join('\n')
/** Keys as the sources write them, what is worked out in them as a hole that any name fits. */
const written = (before: string): string[] => [...window.matchAll(new RegExp(before + KEY, 'g'))].map((found) => found[1]!)
const pattern = (key: string): RegExp =>
  new RegExp(`^${key.split(new RegExp(HOLE)).map((part) => part.replaceAll('.', '\\.')).join('[\\w.]+')}$`)

describe('the words', () => {
  it('are there for every key that the window asks for, and none stands unasked', () => {
    const asked = [...new Set(written(String.raw`\bt\(\s*(?:[^()'"\`]*\?\s*)?`))]
    expect(asked.length).toBeGreaterThan(500)
    const keys = [...english.keys()]
    expect(asked.filter((key) => !keys.some((each) => pattern(key).test(each)))).toEqual([])
    const reached = [...new Set(written(''))].map(pattern)
    expect(keys.filter((key) => !reached.some((each) => each.test(key)))).toEqual([])
  })

  it('have German for every sentence, and none that English lacks', () => {
    const known = new Set(german.map(([key]) => key))
    expect([...english.keys()].filter((key) => !known.has(key))).toEqual([])
    expect([...known].filter((key) => !english.has(key))).toEqual([])
    // An empty sentence stays empty: it stands where a number says it all.
    expect(german.filter(([key, text]) => (text === '') !== (english.get(key) === ''))).toEqual([])
  })

  it('name the same figures in both languages', () => {
    const differ = german.filter(([key, text]) => places(text).join() !== places(english.get(key) ?? '').join())
    expect(differ).toEqual([])
  })

  it('can all be read by the catalogue, without eval', () => {
    const faults: string[] = []
    const messages: Record<string, Tree> = { en: en as unknown as Tree, de: de as unknown as Tree }
    const i18n = createI18n<false>({
      legacy: false, locale: 'en', messages: messages as never, missing: (_, key) => { faults.push(key) },
    })
    const { t: say } = i18n.global as unknown as {
      t: (key: string, figures: Record<string, string>, options: { locale: string }) => string
    }
    const warn = console.warn
    console.warn = (text: string) => { faults.push(text) }
    const all = [...[...english].map((each) => ['en', ...each] as const), ...german.map((each) => ['de', ...each] as const)]
    for (const [locale, key, text] of all) {
      const figures = Object.fromEntries(places(text).map((name) => [name, '7']))
      const said = say(key, figures, { locale })
      if (text !== '' && (said === key || said.includes('{'))) faults.push(`${locale} ${key}`)
    }
    console.warn = warn
    expect(faults).toEqual([])
  })
})

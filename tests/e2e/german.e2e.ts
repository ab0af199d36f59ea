/** The window in German: no screen shows an English sentence, of an empty car or of the demo, report included. */
import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { LANGUAGES } from '../../shared-core/report/words'
import { de } from '../../renderer/words/de'
import { en } from '../../renderer/words/en'
import { admit, ask, importDemo, overflowPx, SCREENS, show } from '../screenshots/visit'
import { useApp } from './appUnderTest'

type Tree = { readonly [key: string]: string | Tree }
const flat = (tree: Tree): string[] =>
  Object.values(tree).flatMap((value) => (typeof value === 'string' ? value.split(' | ') : flat(value)))
const german = new Set([...flat(de), ...Object.values(LANGUAGES.de.sentences)])
/** What a new car's things are called: names, that the demo has too. */
const names: readonly string[] = Object.values(en.library.first)
const english = [...new Set([...flat(en), ...Object.values(LANGUAGES.en.sentences)])]
  .filter((text) => text !== '' && !german.has(text) && !names.includes(text))

const whole = english.filter((text) => !text.includes('{'))
/** Sentences with figures in them, as patterns; those of a few letters would be found in any name. */
const patterns = english.filter((text) => text.includes('{') && text.replace(/\{\w+\}|[^a-z]/g, '').length >= 12)
  .map((text) => `^${text.split(/\{\w+\}/).map((part) => part.replace(/[.*+?^$()[\]|\\]/g, '\\$&')).join('.+')}$`)

const app = useApp()
let page: Page
const faults: string[] = []

beforeAll(async () => {
  const storageState = await admit(app.browser, app.host.address)
  const context = await app.browser.newContext({ viewport: { width: 1280, height: 800 }, storageState })
  page = await context.newPage()
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.origin)
  await page.waitForSelector('main h1')
  const preferences = await ask(page, 'preferences.read', {}) as object
  await ask(page, 'preferences.save', { ...preferences, language: 'de', decimalMark: 'comma' })
  await page.reload()
  await page.getByText(de.library.emptyTitle).waitFor()
})

/** Texts and names in the page, the report's own root included, that are English sentences of the catalogue. */
async function englishShown(): Promise<string[]> {
  await page.evaluate(() => { for (const each of document.querySelectorAll('main details')) each.setAttribute('open', '') })
  await page.waitForTimeout(150)
  const texts = await page.evaluate(() => {
    const elements = [...document.querySelectorAll('*')]
    const roots: Node[] = [document.body, ...elements.flatMap((each) => each.shadowRoot ?? [])]
    const named = elements.flatMap((each) => ['aria-label', 'title', 'placeholder', 'alt'].map((name) => each.getAttribute(name) ?? ''))
    const written = roots.flatMap((root) => {
      const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT)
      const found: string[] = []
      while (walker.nextNode()) found.push(walker.currentNode.textContent ?? '')
      return found
    })
    return [document.title, ...named, ...written].map((text) => text.trim().replace(/\s+/g, ' ')).filter((text) => text !== '')
  })
  const tests = patterns.map((pattern) => new RegExp(pattern, 'u'))
  return [...new Set(texts.filter((text) => whole.includes(text) || tests.some((test) => test.test(text))))]
}

async function visitAll(chassisId: string): Promise<Record<string, unknown>> {
  const wrong: Record<string, unknown> = {}
  for (const screen of SCREENS) {
    await show(page, screen, chassisId)
    const found = await englishShown()
    const over = await overflowPx(page)
    if (found.length > 0) wrong[screen] = found
    if (over > 0) wrong[`${screen}, wider than its window, px`] = over
  }
  return wrong
}

it('has sentences to look for, and finds one that is put there', async () => {
  expect(whole.length).toBeGreaterThan(500)
  expect(patterns.length).toBeGreaterThan(80)
  await page.evaluate(() => { document.querySelector('main')!.append('Open the demo car') })
  expect(await englishShown()).toEqual(['Open the demo car'])
  await page.reload()
})

it('shows none of them on any screen of an empty car', async () => {
  await page.getByLabel(de.library.newName).fill('Reiher 12')
  await page.getByRole('button', { name: de.library.create }).click()
  await page.getByRole('heading', { level: 1, name: de.shell.steps.chassis, exact: true }).waitFor()
  const chassisId = /#\/car\/([^/]+)\//.exec(page.url())![1]!
  expect(await visitAll(chassisId)).toEqual({})
  expect(faults).toEqual([])
})

it('shows none of them on any screen of the demo, and prints the report in German', async () => {
  const chassisId = await importDemo(page)
  expect(await visitAll(chassisId)).toEqual({})
  await show(page, 'report', chassisId)
  const report = await page.evaluate(() =>
    [...document.querySelectorAll('*')].flatMap((each) => each.shadowRoot?.textContent ?? []).join(' '))
  expect(report).toContain(LANGUAGES.de.sentences.title)
  expect(report).toMatch(/\d,\d+ bis \d/)
  expect(faults).toEqual([])
})

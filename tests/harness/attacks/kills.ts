/**
 * `tsx tests/harness/attacks/kills.ts [--host N] [--page N] [--browser N]`: readings typed into the built window in a
 * real Chromium, and SIGKILL at random moments: to the host (the window goes on typing, and is opened anew at the next
 * host), to the page's process, and to the whole browser. What the window took must stand on the disk at the end; of a
 * killed browser, what the host had acknowledged.
 */
import { execFileSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { chromium, type BrowserContext, type Page } from 'playwright-core'
import type { SquatSession } from '@core/schema'
import { ensureBuilt } from '../../../electron/freshBuild'
import { findChromium } from '../../e2e/browser'
import { bundleHost, spawnHost, type HostProcess } from '../crash'
import type { Figure } from '../figure'
import { report } from '../figure'
import { chance, type Chance } from '../fuzz/mutate'
import { enter } from '../hostClient'
import { sampleChassis, sampleSquat } from '../sample'

const ROOT = fileURLToPath(new URL('../../..', import.meta.url))
const FLAGS = ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-sync']
/** Values typed in one round. */
const VALUES = 5
/** Longest wait for a value to arrive on the disk, ms. */
const PATIENCE_MS = 30_000

const pause = (ms: number): Promise<void> => new Promise((done) => { setTimeout(done, ms) })

/** Library, host at one port and browser with one profile, each of which can be killed and started anew. */
class Rig {
  readonly folder = mkdtempSync(join(tmpdir(), 'squatbench-kills-'))
  private readonly library = join(this.folder, 'library')
  private readonly pages = join(this.folder, 'pages')
  private program = ''
  private port = 0
  private host: HostProcess | null = null
  private context: BrowserContext | null = null
  page: Page | null = null
  /** Values that a save held which the host acknowledged. */
  readonly acknowledged = new Set<number>()

  async begin(): Promise<void> {
    this.program = await bundleHost(join(this.folder, 'program'))
    // A copy, so that another build meanwhile changes nothing.
    cpSync(join(ROOT, 'out/renderer'), this.pages, { recursive: true })
    await this.startHost()
    const { call } = await enter(this.host!.address)
    await call('library.saveChassis', { chassis: sampleChassis('mule'), baseRevision: 0 })
    await call('library.saveSession', { session: sampleSquat('mule', 'squat', [0]), baseRevision: 0 })
    await this.host!.kill()
    await this.startHost()
    await this.startBrowser()
    await this.open()
  }

  async startHost(): Promise<void> {
    this.host = await spawnHost(this.program, this.library, this.pages, this.port)
    this.port = Number(new URL(this.host.address).port)
  }

  killHost = (): Promise<void> => this.host!.kill()

  async startBrowser(): Promise<void> {
    this.context = await chromium.launchPersistentContext(join(this.folder, 'profile'), {
      executablePath: findChromium()!, headless: true, args: FLAGS,
    })
    await this.freshPage()
  }

  private async freshPage(): Promise<void> {
    const page = await this.context!.newPage()
    page.on('dialog', (dialog) => { void dialog.accept().catch(() => undefined) })
    page.on('response', (response) => { void this.note(response).catch(() => undefined) })
    this.page = page
  }

  private async note(response: Awaited<ReturnType<Page['waitForResponse']>>): Promise<void> {
    if (!response.url().endsWith('/service/library.saveSession') || response.status() !== 200) return
    const { session } = JSON.parse(response.request().postData() ?? '{}') as { session: SquatSession }
    const answer = await response.json() as { ok: boolean; value?: { kind: string } }
    if (answer.ok && answer.value?.kind === 'saved') for (const value of valuesOf(session)) this.acknowledged.add(value)
  }

  /** Shows the squat test, let in by the host's address. */
  async open(): Promise<void> {
    await this.page!.goto(this.host!.address)
    await this.page!.waitForSelector('main h1')
    await this.page!.goto(`http://127.0.0.1:${this.port}/#/car/mule/squat`)
    await this.field().waitFor()
  }

  field = () => this.page!.locator('[data-step] input[type="text"]').first()

  /** Types a value and takes it with Enter; answers once the window took it. */
  async type(value: number): Promise<void> {
    const field = this.field()
    await field.fill(value.toFixed(3))
    await field.press('Enter')
  }

  /** SIGKILL to every process of a kind: the pages' or all of the browser. */
  async killBrowser(which: 'pages' | 'all'): Promise<void> {
    const profile = join(this.folder, 'profile')
    const lines = execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' }).split('\n')
    const own = lines.filter((line) => line.includes(profile) && !line.includes('ps -eo'))
    const pidOf = (line: string): number => Number(/^\s*(\d+)/.exec(line)?.[1])
    const main = own.map(pidOf).filter((pid) => !childrenOf(pid, new Set()).has(pid))
    const inside = new Set(main.flatMap((pid) => [...childrenOf(pid, new Set())]))
    const pages = lines.filter((line) => line.includes('--type=renderer') && inside.has(pidOf(line))).map(pidOf)
    for (const pid of which === 'pages' ? pages : [...main, ...inside]) kill(pid)
    if (which === 'pages') {
      await pause(50)
      // A page that crashed may never say that it is closed.
      await Promise.race([this.page!.close().catch(() => undefined), pause(2000)])
      await this.anotherPage()
    } else await this.anotherBrowser()
  }

  /** A new page: the process that the browser held ready for it may have been killed as well. */
  private async anotherPage(): Promise<void> {
    for (let tries = 0; tries < 5; tries += 1) {
      const made = await Promise.race([this.freshPage().then(() => true, () => false), pause(10_000).then(() => false)])
      if (made) return
      await pause(200)
    }
    await this.anotherBrowser()
  }

  private async anotherBrowser(): Promise<void> {
    await Promise.race([this.context!.close().catch(() => undefined), pause(2000)])
    await this.startBrowser()
  }

  onDisk(): Set<number> {
    const text = readFileSync(join(this.library, 'chassis', 'mule', 'sessions', 'squat.json'), 'utf8')
    return new Set(valuesOf(JSON.parse(text) as SquatSession))
  }

  /** Those of the values that are not on the disk, after patience. */
  async missing(values: readonly number[]): Promise<number[]> {
    const endMs = performance.now() + PATIENCE_MS
    for (;;) {
      const there = this.onDisk()
      const missing = values.filter((value) => !there.has(value))
      if (missing.length === 0 || performance.now() > endMs) return missing
      await pause(20)
    }
  }

  /** What the browser keeps and the window says: for a finding. */
  told = (): Promise<string> => this.page!.evaluate(() => {
    const kept = Object.entries(localStorage).map(([key, text]) => `${key} = ${String(text).slice(0, 800)}`)
    const said = [...document.querySelectorAll('[role=alert], [role=status], .saved')].map((each) => each.textContent?.trim())
    return JSON.stringify({ kept, said })
  })

  async end(): Promise<void> {
    await this.context?.close().catch(() => undefined)
    await this.host?.kill()
    rmSync(this.folder, { recursive: true, force: true })
  }
}

function childrenOf(pid: number, found: Set<number>): Set<number> {
  try {
    for (const each of readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').split(' ').filter(Boolean).map(Number)) {
      found.add(each)
      childrenOf(each, found)
    }
  } catch {
    // It ended meanwhile.
  }
  return found
}

function kill(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL')
  } catch {
    // It ended meanwhile.
  }
}

const valuesOf = ({ readings }: SquatSession): number[] =>
  readings.flatMap((each) => [each.shownMm, ...each.corrections.map(({ was }) => was)])

type Victim = 'host' | 'page' | 'browser'
interface Tally { kills: number; typed: number; lost: number; unacknowledged: number }

let count = 0
/** A value that was never typed before, mm. */
const fresh = (): number => Math.round((1 + (count += 1) / 1000) * 1000) / 1000

/** Types on until the kill falls, and a little beyond where the window lives; then everything is to be found again. */
async function round(rig: Rig, victim: Victim, some: Chance, tally: Tally): Promise<void> {
  const values: number[] = []
  const before = new Set(rig.acknowledged)
  const after = some.int(0, VALUES - 2)
  let killed: Promise<void> | null = null
  for (let typed = 0; typed < VALUES; typed += 1) {
    if (typed === after) killed = pause(some.int(0, 60)).then(() => (victim === 'host' ? rig.killHost() : undefined))
    const value = fresh()
    await rig.type(value)
    values.push(value)
    if (killed && victim !== 'host') break
  }
  await killed
  tally.kills += 1
  if (victim === 'host') await rig.startHost()
  else await rig.killBrowser(victim === 'page' ? 'pages' : 'all')
  const held = values.filter((value) => rig.acknowledged.has(value) && !before.has(value))
  if (victim !== 'host') {
    // Its one token is used: the browser is let in by the session it has, a fresh one by a new start.
    await rig.killHost()
    await rig.startHost()
  }
  await rig.open()
  const sure = victim === 'browser' ? held : values
  const missing = await rig.missing(sure)
  tally.typed += sure.length
  tally.lost += missing.length
  if (missing.length > 0) {
    console.log(`  ${victim}, kill ${tally.kills}: ${missing.join(', ')} of ${values.join(', ')} lost`)
    console.log(`    ${await rig.told()}`)
  }
  if (victim !== 'browser') return
  const there = rig.onDisk()
  tally.unacknowledged += values.filter((value) => !there.has(value)).length
}

const WORDS: Readonly<Record<Victim, string>> = {
  host: 'Host killed (SIGKILL) while readings are typed in the window, which types on; kept by the browser until the next host',
  page: 'The page’s process killed (SIGKILL) while readings are typed',
  browser: 'The whole browser killed (SIGKILL) while readings are typed: what the host acknowledged',
}

/** A row for each victim named, with so many kills of it. */
export async function typingKillFigures(kills: Readonly<Partial<Record<Victim, number>>>, seed = 1): Promise<Figure[]> {
  ensureBuilt(ROOT)
  const some = chance(seed)
  const rig = new Rig()
  const figures: Figure[] = []
  try {
    await rig.begin()
    for (const victim of ['host', 'page', 'browser'] as const) {
      const wanted = kills[victim] ?? 0
      if (wanted === 0) continue
      const tally: Tally = { kills: 0, typed: 0, lost: 0, unacknowledged: 0 }
      while (tally.kills < wanted) {
        await round(rig, victim, some, tally)
        if (tally.kills % 25 === 0) console.log(`  ${victim}: ${tally.kills} kills, ${tally.lost} lost`)
      }
      const more = victim === 'browser' ? `; ${tally.unacknowledged} more were typed and gone before any answer` : ''
      figures.push({
        what: WORDS[victim],
        figure: `${tally.kills} kills tried, ${tally.typed} readings, ${tally.lost} lost${more}`,
        good: tally.lost === 0 && tally.kills >= wanted,
      })
    }
  } finally {
    await rig.end()
  }
  return figures
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({
    options: {
      host: { type: 'string', default: '200' }, page: { type: 'string', default: '50' },
      browser: { type: 'string', default: '50' }, seed: { type: 'string', default: '1' },
    },
  })
  const kills = { host: Number(values.host), page: Number(values.page), browser: Number(values.browser) }
  report('Kills while typing', await typingKillFigures(kills, Number(values.seed)))
}

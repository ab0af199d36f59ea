/**
 * Where camera readings go, in Chromium against the built app: stills into a squat test, a clip's windows
 * into a blower run, a pass between ground marks into a drive-by run with its speed; each with its
 * picture in the report. Then clips of other makes: H.264 in MP4, uneven frame times, a codec that
 * nothing can play.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { project } from '../synthetic/scene'
import { CLIP_CAMERA, clipFrame, clipPlaces, CLIP_SCALE_MM, type ClipKey, type ClipTruth } from '../synthetic/clip'
import { openEncoders, type Encoders } from '../synthetic/encode'
import { useApp } from './appUnderTest'
import { chooseFile, clickAt, frameShown, intervalOf, markAll, marksMade, openPicture, typeInto } from './cameraSteps'

const STILL_KEYS: readonly ClipKey[] = ['scaleStart', 'scaleEnd', 'groundLeft', 'groundRight']
const CAR_KEYS: readonly ClipKey[] = ['frontHub', 'frontChassis', 'rearHub', 'rearChassis']
const SIZE = { width: CLIP_CAMERA.widthPx, height: CLIP_CAMERA.heightPx }

const standing = (frontMm: number, rearMm: number): ClipTruth =>
  ({ frontMm: () => frontMm, rearMm: () => rearMm, alongMm: () => 0 })
const REST = standing(30, 34)
const LOADED = standing(28.2, 31.5)

/** Air off, on, off. */
const BLOWN: ClipTruth = {
  frontMm: (s) => 30 - (s > 1 && s < 2 ? 3.1 : 0), rearMm: (s) => 34 - (s > 1 && s < 2 ? 4.4 : 0), alongMm: () => 0,
}
const SLOW_FPS = 240
const PASS_MS = 2.5
/** A pass to the left, nose first, squatting as it drives; filmed in slow motion with its true times. */
const PASSING: ClipTruth = {
  frontMm: () => 27.5, rearMm: () => 30.9, alongMm: (s) => 110 - 1000 * PASS_MS * s,
}
const GATES_MM = [0, -160] as const

describe('camera readings', () => {
  const app = useApp()
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-readings-'))
  const file = (name: string): string => join(folder, name)
  const faults: string[] = []
  let page: Page
  let encoders: Encoders

  beforeAll(async () => {
    encoders = await openEncoders(app.browser)
    writeFileSync(file('rest.png'), await encoders.still(clipFrame(REST, 0, 2), { kind: 'png' }))
    writeFileSync(file('loaded.png'), await encoders.still(clipFrame(LOADED, 1, 2), { kind: 'png' }))
    await encoders.clip(file('blown.webm'), SIZE, 75, (i) => clipFrame(BLOWN, i / 25, 2), { fps: 25 })
    await encoders.clip(file('pass.webm'), SIZE, 29, (i) => clipFrame(PASSING, i / SLOW_FPS, 2), { fps: SLOW_FPS, bitrate: 40e6 })
    page = await app.browser.newPage({ viewport: { width: 1440, height: 1000 } })
    page.on('pageerror', (error) => faults.push(error.message))
    await page.goto(app.host.address)
    await page.getByLabel(/^Name of a new car/).fill('Filmed car')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Car' }).waitFor()
  }, 240_000)
  afterAll(async () => {
    await encoders?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  const go = (name: RegExp): Promise<void> => page.getByRole('link', { name }).first().click()
  const next = (): Promise<string> => page.locator('[data-camera="next"]').innerText()
  const placesOf = (truth: ClipTruth, keys: readonly ClipKey[]) => keys.map((key) => clipPlaces(truth, 0)[key])
  const mark = (truth: ClipTruth, keys: readonly ClipKey[]): Promise<void> =>
    markAll(page, placesOf(truth, keys), SIZE.width)

  /** Makes pictures go where a session of this name is. */
  async function keepIn(kind: string): Promise<void> {
    const choice = page.getByLabel('Pictures kept in')
    const options = await choice.locator('option').allInnerTexts()
    await choice.selectOption({ label: options.find((each) => each.startsWith(kind))! })
  }

  async function handOn(count: number): Promise<void> {
    const gauge = page.getByRole('button', { name: 'Use the camera as its gauge' })
    if (await gauge.isVisible()) await gauge.click()
    expect(await next()).toContain('hand the heights on')
    await page.locator('[data-camera="send"]').click()
    await page.getByText(`${count} readings handed on.`).waitFor()
    await expect.poll(next).toContain('Handed on')
    await page.waitForFunction(() => document.body.innerText.includes('Saved'))
  }

  /** Sessions as the library keeps them. */
  async function kept(kind: string) {
    const chassisId = /\/car\/([^/]+)\//.exec(page.url())![1]!
    return page.evaluate(async ([id, wanted]) => {
      const answer = await fetch('/service/library.open', {
        method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ chassisId: id }),
      })
      const { value } = await answer.json()
      return value.sessions.filter((each: { kind: string }) => each.kind === wanted)
    }, [chassisId, kind] as const)
  }
  interface Kept { stepId: string; corner: string; shownMm: number }
  const shownAt = (readings: Kept[], stepId: string, corner: string): number => readings
    .find((each) => each.stepId === stepId && each.corner === corner)!.shownMm

  describe('a squat test', () => {
    it('leads from the scale to the heights, one thing after the other', async () => {
      await go(/^Loads/)
      const scale = page.getByRole('textbox', { name: /^Scale shows/ }).first()
      await scale.fill('900')
      await scale.press('Enter')
      await page.getByRole('textbox', { name: 'Bag 1, weighing 1' }).waitFor()
      await go(/^Squat test/)
      await page.getByRole('button', { name: 'Start a squat test' }).click()
      await go(/^Camera/)
      await openPicture(page, file('rest.png'))
      expect(await next()).toContain('length of the scale')
      await typeInto(page, /^Its length mm/, String(CLIP_SCALE_MM))
      await expect.poll(next).toContain('Scale, one end')
      await mark(REST, [...STILL_KEYS, ...CAR_KEYS])
      await expect.poll(() => marksMade(page)).toBe(8)
      const [low, high] = await intervalOf(page.locator('[data-height="rearLeft"]'))
      expect(low).toBeLessThan(34)
      expect(high).toBeGreaterThan(34)
    })

    it('takes the heights of two stills into two steps, and their drop holds the truth', async () => {
      await handOn(4)
      await go(/^Squat test/)
      await page.getByRole('button', { name: /^Bag 1/ }).click()
      await page.keyboard.press('Control+Enter')
      await page.getByRole('textbox', { name: 'Step 2, front left' }).waitFor()
      await go(/^Camera/)
      await openPicture(page, file('loaded.png'))
      await page.getByRole('button', { name: 'Same set-up as rest.png' }).click()
      await expect.poll(() => marksMade(page)).toBe(4)
      await mark(LOADED, CAR_KEYS)
      await page.getByLabel('Drop against').selectOption({ label: 'rest.png' })
      const said = await page.locator('[data-height="frontLeft"]').innerText()
      const [low, high] = /Drop[\s\S]*interval ([\d.]+) to ([\d.]+)/.exec(said)!.slice(1).map(Number) as [number, number]
      console.log(`drop of two stills, front: true 1.8 mm, read ${low} to ${high} mm`)
      expect(low).toBeLessThan(1.8)
      expect(high).toBeGreaterThan(1.8)
      await handOn(4)
      const [session] = await kept('squat')
      const [first, second] = session.steps.map((each: { id: string }) => each.id)
      expect(session.readings).toHaveLength(8)
      expect(shownAt(session.readings, first, 'rearLeft') - shownAt(session.readings, second, 'rearLeft')).toBeCloseTo(2.5, 1)
      expect(session.pictures.every((each: { thumbnail: string }) => each.thumbnail.startsWith('data:image/jpeg'))).toBe(true)
    })
  })

  describe('a blower run', () => {
    it('takes three windows of one clip as its bracket', async () => {
      await go(/^Airflow/)
      await page.getByRole('button', { name: 'Blower run' }).first().click()
      await go(/^Camera/)
      await keepIn('Airflow')
      await openPicture(page, file('blown.webm'))
      await typeInto(page, /^Its length mm/, String(CLIP_SCALE_MM))
      await mark(BLOWN, [...STILL_KEYS, ...CAR_KEYS])
      await expect.poll(next).toContain('follow them through the clip')
      await page.locator('[data-camera="follow"]').click()
      await page.locator('[data-camera="followed"]').getByText('75 frames followed').waitFor({ timeout: 60_000 })
      expect(await next()).toContain('off, on, off')
      await page.locator('[data-camera="windows"]').click()
      for (const [corner, drop] of [['frontLeft', 3.1], ['rearLeft', 4.4]] as const) {
        const [low, high] = await intervalOf(page.locator(`[data-bracket="${corner}"]`))
        console.log(`bracket ${corner}: true ${drop} mm, read ${low} to ${high} mm`)
        expect(low).toBeLessThan(drop)
        expect(high).toBeGreaterThan(drop)
      }
      await handOn(12)
      const [session] = await kept('airflow')
      expect(session.runs[0].states.map(({ air }: { air: string }) => air)).toEqual(['off', 'on', 'off'])
      expect(session.runs[0].readings).toHaveLength(12)
    })

    it('stands on the airflow screen as read', async () => {
      await go(/^Airflow/)
      const front = Number(await page.getByRole('textbox', { name: 'State 2, front left' }).inputValue())
      expect(front).toBeCloseTo(26.9, 0)
      await page.getByText('Off, on, off complete.').waitFor()
    })
  })

  describe('a pass', () => {
    it('reads the speed between two ground marks', async () => {
      await page.getByRole('button', { name: 'Another airflow session' }).click()
      await page.getByRole('button', { name: 'Drive-by run' }).first().click()
      await go(/^Camera/)
      await page.getByLabel('Pictures kept in').selectOption({ index: 1 })
      await openPicture(page, file('rest.png'))
      await typeInto(page, /^Its length mm/, String(CLIP_SCALE_MM))
      await mark(REST, [...STILL_KEYS, ...CAR_KEYS])
      await page.getByLabel('State', { exact: true }).selectOption({ label: 'State 1, at rest' })
      await handOn(4)

      await openPicture(page, file('pass.webm'))
      await expect.poll(() => frameShown(page).innerText()).toContain('Frame 1 of 29')
      await page.getByRole('button', { name: 'Same set-up as rest.png' }).click()
      await mark(PASSING, CAR_KEYS)
      await page.locator('summary', { hasText: 'Distance, blur, lens, gates' }).click()
      await page.getByLabel('Time passes between marks on the ground').check()
      await typeInto(page, /^Gate 1 to 2 mm/, String(GATES_MM[0] - GATES_MM[1]))
      await expect.poll(next).toContain('Gate 1')
      for (const xMm of GATES_MM) await clickAt(page, project(CLIP_CAMERA, [xMm, 0, 0]), SIZE.width)
      await expect.poll(next).toContain('follow them through the clip')
      await page.locator('[data-camera="follow"]').click()
      await page.locator('[data-camera="followed"]').getByText('29 frames followed').waitFor({ timeout: 60_000 })
      const [low, high] = await intervalOf(page.locator('[data-camera="speed"]'))
      console.log(`speed of the pass: true ${PASS_MS} m/s, read ${low} to ${high} m/s`)
      expect(low).toBeLessThan(PASS_MS)
      expect(high).toBeGreaterThan(PASS_MS)
      expect(high - low).toBeLessThan(0.2)
    })

    it('goes into the drive-by run as a pass with its timing', async () => {
      expect(await next()).toContain('part of the pass')
      await page.locator('[data-camera="windows"]').click()
      await handOn(4)
      const run = (await kept('airflow')).flatMap((each: { runs: { kind: string }[] }) => each.runs)
        .find((each: { kind: string }) => each.kind === 'driveBy')
      expect(run.states.map(({ air }: { air: string }) => air)).toEqual(['off', 'on'])
      const { timing } = run.states[1].pass
      expect(timing.distanceMm.value / 1000 / (timing.secondS - timing.firstS)).toBeCloseTo(PASS_MS, 1)
      expect(timing.uTimeS).toBeGreaterThan(0)
      expect(shownAt(run.readings, run.states[0].id, 'frontLeft') - shownAt(run.readings, run.states[1].id, 'frontLeft')).toBeCloseTo(2.5, 0)
      await go(/^Airflow/)
      await page.getByText('Timing of pass 1').waitFor()
    })
  })

  it('keeps each picture for the report', async () => {
    await go(/^Report/)
    await page.getByLabel('Paper').selectOption('annex')
    const pictures = page.locator('.preview img')
    await expect.poll(() => pictures.count(), { timeout: 60_000 }).toBe(5)
    const shown = await pictures.evaluateAll((all) => Promise.all((all as HTMLImageElement[]).map(async (each) => {
      await each.decode()
      return each.naturalWidth
    })))
    expect(shown.every((width) => width >= 200)).toBe(true)
    const text = await page.locator('.preview .picture').allInnerTexts()
    expect(text.map((each) => /^\S+/.exec(each)![0]).toSorted()).toEqual(
      ['blown.webm', 'loaded.png', 'pass.webm', 'rest.png', 'rest.png'])
    expect(text.find((each) => each.startsWith('pass.webm'))).toContain('pass')
  })

  describe('clips of other makes', () => {
    beforeAll(() => go(/^Camera/))

    it('opens H.264 in MP4 and follows it', async () => {
      await encoders.clip(file('phone.mp4'), SIZE, 20, (i) => clipFrame(REST, i / 30, 2), { codec: 'h264' })
      await openPicture(page, file('phone.mp4'))
      await expect.poll(() => frameShown(page).innerText()).toContain('Frame 1 of 20, 0.0000 s')
      await page.locator('[data-step="10"]').click()
      await expect.poll(() => frameShown(page).innerText()).toContain('Frame 11 of 20, 0.3333 s')
      await page.locator('[data-step="-10"]').click()
      await expect.poll(() => frameShown(page).innerText()).toContain('Frame 1 of 20, 0.0000 s')
      await mark(REST, [...STILL_KEYS, ...CAR_KEYS])
      await page.locator('[data-camera="follow"]').click()
      await page.locator('[data-camera="followed"]').getByText('20 frames followed').waitFor({ timeout: 60_000 })
      const [low, high] = await intervalOf(page.locator('[data-height="frontLeft"]'))
      expect(low).toBeLessThan(30)
      expect(high).toBeGreaterThan(30)
    })

    it('names the mark that can’t be followed', async () => {
      await page.locator('[data-mark]').filter({ hasText: 'Chassis, front left' }).click()
      await clickAt(page, { x: SIZE.width / 2, y: 60 }, SIZE.width)
      await page.locator('[data-camera="follow"]').click()
      await page.getByText('Chassis, front left has nothing around it to be known by').waitFor()
    })

    it('takes uneven frame times as they are', async () => {
      await encoders.clip(file('uneven.webm'), SIZE, 40, (i) => clipFrame(REST, i / 30, 2), { withoutEach: 4 })
      await openPicture(page, file('uneven.webm'))
      await expect.poll(() => frameShown(page).innerText()).toContain('Frame 1 of 30')
      await page.getByText('not evenly spaced').waitFor()
      await page.locator('[data-step="1"]').click()
      await page.locator('[data-step="1"]').click()
      await page.locator('[data-step="1"]').click()
      // The fourth of every four frames is left out: the fourth that stands was taken as the fifth.
      await expect.poll(() => frameShown(page).innerText()).toMatch(/Frame 4 of 30, 0\.133\d s/)
    })

    it('says what to do about a codec that cannot be played', async () => {
      // MPEG-4 part 2, as old cameras write it: the name of a clip's codec is all that differs before it is played.
      const clip = readFileSync(file('phone.mp4'))
      clip.write('mp4v', clip.indexOf('avc1', clip.indexOf('stsd')))
      writeFileSync(file('old.mp4'), clip)
      await chooseFile(page, file('old.mp4'))
      await page.locator('.camera > .trouble').waitFor()
      const said = await page.locator('.camera > .trouble').innerText()
      console.log(`a codec nothing plays: ${said}`)
      expect(said).toMatch(/^old\.mp4 .*Save it as WebM \(VP8, VP9\) or as MP4 \(H\.264\)\.$/)
    })

    it('says of a phone’s HEVC film what to set on the phone', async () => {
      const clip = readFileSync(file('phone.mp4'))
      const at = clip.indexOf('stsd')
      clip.write('hvc1', clip.indexOf('avc1', at))
      clip.write('hvcC', clip.indexOf('avcC', at))
      writeFileSync(file('hevc.mp4'), clip)
      await chooseFile(page, file('hevc.mp4'))
      const said = page.locator('.camera > .trouble')
      await expect.poll(() => said.innerText(), { timeout: 30_000 }).toMatch(/^hevc\.mp4 is filmed in HEVC .*most compatible/)
    })
  })

  it('showed no fault', () => expect(faults).toEqual([]))
})

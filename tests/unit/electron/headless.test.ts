/** What the command without a window prints of the demo, and what it says to options that do not fit. */
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { BadInput, readOptions, type Options } from '@electron/headless/options'
import { asJson } from '@electron/headless/asJson'
import { asTable } from '@electron/headless/asTable'
import { resultsOf } from '@electron/headless/results'
import { openExchangeText } from '@core/schema'

const options = (...more: string[]): Options => {
  const read = readOptions(['demo.json', ...more])
  if (read === 'help') throw new Error('help')
  return read
}
const demo = () => {
  const opening = openExchangeText(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8'))
  if (opening.kind !== 'opened') throw new Error('the demo does not open')
  return opening.document
}

/** The parts of the JSON that are looked at here. */
interface Interval { kind: string; valueMm?: number; valueM2?: number; valueNPerMm?: number; valueMs?: number }
interface AtHeight { clearance: Interval; drop: Interval; state: string }
interface Json {
  configurations: {
    configurationId: string
    wholeLaws: { axles: Record<'front' | 'rear', { cla: Interval }> }
    laws: { axles: Record<'front' | 'rear', { cla: Interval; exponent: Interval; exponentVerdict: string; height: unknown }> }
    density: { valueKgM3: number }
    balance?: unknown
    heights: { speedMs: number; axles: Record<'front' | 'rear', AtHeight> }[]
    touchDown: { axles: Record<'front' | 'rear', { kind: string; speed: Interval }>; frontFirst: number | null }
    springs: {
      holdMm: number
      axles: Record<'front' | 'rear', { neededWheelRate: Interval; springs: { springId: string; clearance: Interval; probabilityHolds: number | null }[] }>
    }
  }[]
  comparisons: { holmP: number | null; probabilityLarger: { kind: string }; repeatsNeeded: { kind: string } | null }[]
  ranking: { configurationId: string }[]
  track: { runs: unknown[]; comparisons: { verdict: string; agreement: { normalisedError: number } }[] }[]
}

describe('the ranking that was asked for', () => {
  const wished = options('--rank', 'lap')
  const results = resultsOf(demo(), wished)

  it('is printed after cost and gain, the quickest lap first', () => {
    const text = asTable(results)
    for (const title of ['What downforce costs', 'Laps, one set-up less another']) expect(text).toContain(title)
    const [, list] = text.split('Set-ups, quickest lap first')
    const rows = list!.trimStart().split('\n').slice(2, 2 + results.ranking!.list.length)
    const laps = rows.map((row) => Number(/(\d+\.\d+) s/.exec(row)?.[1]))
    expect(laps.length).toBeGreaterThan(1)
    expect(laps).toEqual([...laps].sort((a, b) => a - b))
  })

  it('stands in the JSON, too', () => {
    const { ranked } = asJson(results) as { ranked: { by: string; configurations: { value: { valueS: number } }[] } }
    expect(ranked.by).toBe('lap')
    expect(ranked.configurations[0]!.value.valueS).toBeLessThan(ranked.configurations.at(-1)!.value.valueS)
  })
})

describe('the options', () => {
  it('are read, with what is usual where none is given', () => {
    expect(options()).toEqual({
      file: 'demo.json', json: false, speedsMs: null, heightsToMs: 30, holdMm: 1, holdAtMs: 20, findM2: null,
      rank: null, radiusM: 6, course: null,
    })
    expect(options('--json', '--speed', '12.5', '--speed', '30', '--heights-to=40', '--hold', '0', '--hold-at', '25', '--find', '20'))
      .toMatchObject({ json: true, speedsMs: [12.5, 30], heightsToMs: 40, holdMm: 0, holdAtMs: 25, findM2: 0.002 })
    expect(options('--rank', 'corner', '--radius', '9')).toMatchObject({ rank: 'corner', radiusM: 9 })
  })

  it.each([
    [['--speed', 'fast'], '--speed fast: give a speed in m/s above 0, up to 150'],
    [['--speed', '10', '--speed', '0'], '--speed 0: give a speed in m/s above 0, up to 150'],
    [['--heights-to', '400'], '--heights-to 400: give a speed in m/s above 0, up to 150'],
    [['--hold', ''], '--hold : give a clearance in mm, 0 to 200'],
    [['--hold', '201', '--hold-at', 'x'], '--hold 201: give a clearance in mm, 0 to 200\n--hold-at x: give a speed'],
    [['--rank', 'beauty'], '--rank beauty: give loadPerDrag, corner or lap'],
    [['--find', '0'], '--find 0: give a difference of ClA in cm²'],
    [['--loud'], "Unknown option '--loud'"],
    [['other.json'], 'Give one exchange file.'],
  ])('%j are refused with what is wrong and what is wanted', (args, words) => {
    expect(() => options(...args)).toThrow(BadInput)
    expect(() => options(...args)).toThrow(words)
  })

  it('end the command with exit code 2, and nothing on its output', () => {
    try {
      execFileSync('npx', ['tsx', 'electron/headless/analyse.ts', 'seeds/demo.json', '--hold', 'low'], { stdio: 'pipe' })
      throw new Error('it went through')
    } catch (error) {
      const { status, stderr, stdout } = error as { status: number; stderr: Buffer; stdout: Buffer }
      expect([status, stderr.toString(), stdout.toString()])
        .toEqual([2, '--hold low: give a clearance in mm, 0 to 200\n', ''])
    }
  })
})

describe('the demo without a window', () => {
  const results = resultsOf(demo(), options('--heights-to', '40', '--hold', '1.2', '--hold-at', '22', '--find', '20'))
  const json = asJson(results) as Json
  const text = asTable(results).replaceAll('\u00a0', ' ')
  const skirts = json.configurations.find(({ configurationId }) => configurationId === 'tray-skirts')!
  const trayMm = { front: results.analysis.squats[0]!.axles.front, rear: results.analysis.squats[0]!.axles.rear }

  it('has the room under the tray from a standstill up to the speed wished, falling until it touches', () => {
    const { heights, touchDown } = skirts
    expect(heights.at(-1)!.speedMs).toBeCloseTo(40, 9)
    expect(heights[0]!.axles.front.clearance.valueMm).toBeCloseTo(3.6, 2)
    for (const axle of ['front', 'rear'] as const) {
      const speedMs = touchDown.axles[axle].speed.valueMs!
      const free = heights.filter((each) => each.speedMs < speedMs).map((each) => each.axles[axle])
      const down = heights.filter((each) => each.speedMs > speedMs).map((each) => each.axles[axle])
      expect(free.every(({ state }) => state === 'free')).toBe(true)
      expect(down.length).toBeGreaterThan(0)
      for (const { state, clearance } of down) expect([state, clearance.kind]).toEqual(['touching', 'atMost'])
      const left = free.map(({ clearance }) => clearance.valueMm!)
      expect([...left].sort((a, b) => b - a)).toEqual(left)
    }
  })

  it('has the wheel rate that holds the tray: half of load, bodywork and all, over drop (closed form, no preload in front)', () => {
    const front = trayMm.front
    if (front.refused || !front.touchMm) throw new Error('no curve')
    const { wholeLaws, density, springs } = skirts
    const loadN = 0.5 * density.valueKgM3 * 22 ** 2 * wholeLaws.axles.front.cla.valueM2!
    expect(springs.holdMm).toBe(1.2)
    expect(springs.axles.front.neededWheelRate.valueNPerMm).toBeCloseTo(loadN / (front.touchMm.value - 1.2) / 2, 9)
  })

  it('has the other way round: each spring of the list that fits the axle, and whether it holds', () => {
    for (const { springs } of json.configurations) {
      expect(springs.axles.front.springs.map(({ springId }) => springId)).toEqual(['front-spring'])
      expect(springs.axles.rear.springs.map(({ springId }) => springId)).toEqual(['rear-spring'])
      for (const { springs: list } of Object.values(springs.axles)) {
        for (const { clearance, probabilityHolds } of list) {
          if (clearance.kind === 'interval') expect(probabilityHolds! > 0.5).toBe(clearance.valueMm! > 1.2)
        }
      }
    }
  })

  it('has the speed law with its exponent, the ranking, the chance, the repeats and the track', () => {
    expect(json.configurations[0]!.laws.axles.front.exponentVerdict).toBe('agrees')
    expect(json.ranking.map(({ configurationId }) => configurationId)[0]).toBe('wing-skirts')
    expect(json.comparisons).toHaveLength(6)
    for (const each of json.comparisons) {
      expect(each.probabilityLarger.kind).toBe('is')
      expect(['times', 'outOfReach']).toContain(each.repeatsNeeded!.kind)
    }
    expect(json.track[0]!.runs).toHaveLength(6)
    expect(json.track[0]!.comparisons[0]).toMatchObject({ verdict: 'agrees', agreement: { weak: false } })
    expect(Math.abs(json.track[0]!.comparisons[0]!.agreement.normalisedError)).toBeLessThan(1)
  })

  it('says as much in tables', () => {
    for (const title of [
      'Axle curves', 'Load of each run', 'Air of each run', 'Set-ups: ClA', 'Speed law', 'Balance', 'At speed', 'Room under the tray',
      'Touches the ground at', 'Wheel rate that holds 1.2 mm at 22 m/s', 'Springs at hand, asked to hold 1.2 mm at 22 m/s',
      'Set-ups, most downforce first', 'Comparisons', 'What this bench can find', "Holm's over 6 pairs", 'Track: level held',
      'Track: after over before', 'Track less bench', 'Grip falls with load',
    ]) expect(text).toContain(title)
    const [, room] = /Room under the tray[^\n]*\n[^\n]*\n[^\n]*\n([\s\S]*?)\n\n/.exec(text)!
    expect(room!.split('\n')).toHaveLength(4 * 9)
    expect(room).toMatch(/Wing and skirts .* at most 0 mm \(the tray was on the ground\), on the ground/)
    expect(text).not.toMatch(/undefined|NaN/)
  })
})

describe('what a squat test left out', () => {
  it('is in the JSON and in the tables', () => {
    const file = structuredClone(demo())
    const squat = file.sessions.find((each) => each.kind === 'squat')!
    const loaded = squat.steps.find(({ branch }) => branch === 'loading')!
    squat.readings.find(({ stepId }) => stepId === loaded.id)!.shownMm *= 10
    const results = resultsOf(file, options())
    const { squatTests, weightDoubts } = JSON.parse(JSON.stringify(asJson(results))) as {
      squatTests: { remarks: { code: string }[] }[]; weightDoubts: unknown[]
    }
    expect(squatTests[0]!.remarks.map(({ code }) => code)).toContain('readingSlipped')
    expect(weightDoubts).toEqual([])
    const text = asTable(results)
    expect(text).toContain('What the squat tests leave out or doubt')
    expect(text).toMatch(/can’t be; was it \d/)
  })
})

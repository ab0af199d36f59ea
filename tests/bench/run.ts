/**
 * `npm run bench`: how fast the core is, side by side with scipy and numpy in one run. Rounds
 * alternate between the two sides, so that whatever else the machine does meets both; figures are
 * medians over the rounds, and ratios of medians.
 */
import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import { fit } from '@core/calibration/fit/solve'
import { fitCandidates } from '@core/calibration/select/candidates'
import { driveCourse } from '@core/course'
import { fitCoasts } from '@core/drag'
import { blockSize, Collector } from '@core/uncertainty'
import { FRAME_S, followTimes } from './following'
import { COAST_SETTINGS, LAPPING, LONG_COURSE, longCoasts } from './driving'
import { startOtherSide, type OtherSide } from './otherSide'
import { curveOf, fitTask, observationsOf, sessionOf, SPAN, U_DROP, U_FORCE, type FitTask } from './tasks'
import { VALUES } from './trial'
import { typingTimes } from './typing'

const ROUNDS = 21
const TRIALS = 1_000_000
const SIZES = [60, 240, 1000, 5000]
const FITS = (['straight', 'quadratic', 'knee'] as const).map((name) => fitTask(name))

const WIDE = 96
const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!
const ms = (seconds: number) => `${(seconds * 1e3).toPrecision(3)} ms`

function time(work: () => void, repeats: number): number {
  const begin = performance.now()
  for (let i = 0; i < repeats; i++) work()
  return (performance.now() - begin) / repeats / 1e3
}

interface Row {
  readonly what: string
  readonly ours: number
  readonly theirs: number | null
  readonly wanted: string
  readonly met: boolean | null
}
const rows: Row[] = []

/** Adds a row; `least` is the wanted ratio theirs/ours, `most` the wanted time in seconds. */
function report(what: string, ours: number[], theirs: number[], { least, most }: { least?: number; most?: number }) {
  const own = median(ours)
  const other = theirs.length > 0 ? median(theirs) : null
  const met = most !== undefined ? own < most : least === undefined || other === null ? null : other / own >= least
  const wanted = most !== undefined ? `under ${ms(most)}` : least !== undefined ? `ratio at least ${least}` : ''
  rows.push({ what, ours: own, theirs: other, wanted, met })
}

async function alternate(own: () => number | Promise<number>, other: (() => Promise<number>) | null, rounds = ROUNDS) {
  const ours: number[] = []
  const theirs: number[] = []
  for (let round = 0; round < rounds; round++) {
    ours.push(await own())
    if (other) theirs.push(await other())
  }
  return { ours, theirs }
}

async function refits(side: OtherSide | null) {
  for (const shape of ['progressive', 'stop', 'linear'] as const) {
    const data = sessionOf(60, shape)
    const result = await alternate(
      () => time(() => fitCandidates(data), 5),
      side && shape === 'progressive' ? async () => (await side.ask('refit', 60, 1)).seconds : null,
    )
    const what = `(a) refit, all six shapes, 60 readings, 7 shared errors (${shape} car)`
    report(what, result.ours, result.theirs, { most: 5e-3 })
  }
}

async function singleFits(side: OtherSide | null) {
  for (const task of FITS) {
    const curve = curveOf(task.name)
    const observations = observationsOf(task)
    let theta: ArrayLike<number> = []
    let answer: number[] = []
    const own = (offset: number) => time(() => {
      const result = fit(curve, observations, { start: task.start, offset })
      if (!result.fitted) throw new Error(result.code)
      theta = result.theta
    }, 50)
    const other = side && (async () => {
      const timing = await side.ask('fit', task.name, 20)
      answer = timing.answer!
      return timing.seconds
    })
    const differ = () => Math.max(...answer.map((each, j) => Math.abs(theta[j]! / each - 1))).toExponential(1)
    for (let warm = 0; warm < 20; warm++) own(1e-8)
    // scipy.odr ends where the sum of squares changes by 1.5e-8 of itself: an offset of 1e-4.
    const loose = await alternate(() => own(1e-5), other)
    const what = `(b) one fit, errors in both variables, 60 points: ${task.name}`
    report(`${what}, stopped as theirs`, loose.ours, loose.theirs, { least: task.name === 'knee' ? 10 : 1 })
    if (side) console.log(`    ${task.name}: estimates differ by ${differ()} at most, stopped as theirs`)
    const tight = await alternate(() => own(1e-8), other)
    report(`${what}, our own 1e-8`, tight.ours, tight.theirs, {})
    if (side) console.log(`    ${task.name}: estimates differ by ${differ()} at most, stopped as we do`)
  }
}

async function monteCarloTrials(side: OtherSide | null) {
  const count = Math.max(2, Math.min(4, availableParallelism()))
  const size = blockSize()
  const blocks = Array.from({ length: TRIALS / size }, (_, i) => i)
  // A worker thread does not inherit the loader that runs TypeScript; it is told to start with it.
  const boot = `import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(
    new URL('./worker.ts', import.meta.url).href)}) })`
  const workers = Array.from({ length: count }, () => new Worker(boot, { eval: true }))
  const ask = (worker: Worker, own: number[]) => new Promise<{ index: number; values: Float64Array }[]>((done) => {
    worker.once('message', done)
    worker.postMessage({ seed: 1, blocks: own, size })
  })
  let ends = ''
  const own = async () => {
    const begin = performance.now()
    const parts = await Promise.all(workers.map((worker, w) => ask(worker, blocks.filter((b) => b % count === w))))
    const collector = new Collector(1, { seed: 1, fixedTrials: TRIALS })
    parts.flat().sort((a, b) => a.index - b.index).forEach(({ values }) => collector.add([values]))
    const { value, u, symmetric, shortest } = collector.result().outputs[0]!
    ends = [value, u, symmetric.low, symmetric.high, shortest.low, shortest.high].map((each) => each.toFixed(3)).join(' ')
    return (performance.now() - begin) / 1e3
  }
  for (let warm = 0; warm < 3; warm++) await own()
  let other = ''
  const { ours, theirs } = await alternate(own, side && (async () => {
    const timing = await side.ask('trials', TRIALS, 1)
    other = timing.answer!.map((each) => each.toFixed(3)).join(' ')
    return timing.seconds
  }))
  report(`(c) 1e6 Monte Carlo trials, 5 sources, both 95 % intervals, ${count} workers`, ours, theirs, { least: 1 })
  console.log(`    trials: mean, u, symmetric, shortest: ours ${ends}${other && `; numpy ${other}`}`)
  await Promise.all(workers.map((worker) => worker.terminate()))
}

async function growth(side: OtherSide | null) {
  for (const n of SIZES) {
    const data = sessionOf(n)
    const own = () => time(() => fitCandidates(data), n > 500 ? 1 : 5)
    // A dense covariance of 5,000 readings would take this side minutes: it stops at 1,000.
    const other = side && n <= 1000 ? async () => (await side.ask('refit', n, 1)).seconds : null
    const { ours, theirs } = await alternate(own, other, n > 500 ? 3 : 7)
    report(`(d) refit, all six shapes, ${n} readings (theirs: dense covariance)`, ours, theirs, {})
  }
  const per = rows.filter(({ what }) => what.startsWith('(d)'))
  const power = Math.log(per.at(-1)!.ours / per[0]!.ours) / Math.log(SIZES.at(-1)! / SIZES[0]!)
  console.log(`    growth from ${SIZES[0]} to ${SIZES.at(-1)} readings: n^${power.toFixed(2)}`)
}

async function driving() {
  const coasts = longCoasts()
  const fitted = await alternate(() => time(() => {
    if ('refused' in fitCoasts(coasts, COAST_SETTINGS)) throw new Error('the coasts were refused')
  }, 1), null)
  report('(e) fit of 20 coasts of 1,000 speeds each', fitted.ours, [], { most: 0.1 })
  const lapped = await alternate(() => time(() => {
    if (driveCourse(LONG_COURSE, [LAPPING])?.outcomes[0]?.lapS.kind !== 'interval') throw new Error('no lap is told')
  }, 1), null)
  report('(f) lap of 30 pieces, 2,000 draws, one set-up', lapped.ours, [], { most: 0.2 })
}

/** Half of the time between two frames is kept back for the decoder and the window. */
function following() {
  const { four, whole } = followTimes()
  const slowest = (times: readonly number[]) => [times.toSorted((a, b) => a - b)[Math.floor(0.95 * times.length)]!]
  const wanted = { most: FRAME_S / 2 }
  report('(g) live bench at 60 frames/s, 1280 x 720: four marks followed', four, [], wanted)
  report('(g) all eight marks followed, heights, guards, the walk of a squat test', whole, [], wanted)
  report('(g) the same, the slowest frame of twenty', slowest(whole), [], wanted)
}

/** Goes of the typing: others of the machine may hold one of them up. */
const TYPING_GOES = 3

async function typing() {
  const goes = await typingTimes(5000, TYPING_GOES)
  const [keys, what] = [goes[0]?.keys ?? 0, 'keys typed into 5,000 readings, from key to frame in the built window']
  report(`(g) ${keys} ${what}: 95 of 100`, goes.map(({ slowMs }) => slowMs / 1e3), [], { most: 0.05 })
  report(`(h) ${keys} ${what}: slowest`, goes.map(({ worstMs }) => worstMs / 1e3), [], { most: 0.15 })
}

function print(side: OtherSide | null) {
  console.log(`\n${'what'.padEnd(WIDE)} ${'ours'.padStart(9)} ${'theirs'.padStart(9)} ${'theirs/ours'.padStart(12)}  wanted`)
  for (const { what, ours, theirs, wanted, met } of rows) {
    const ratio = theirs === null ? '' : (theirs / ours).toFixed(1)
    const verdict = met === null ? '' : met ? 'met' : 'MISSED'
    console.log(`${what.padEnd(WIDE)} ${ms(ours).padStart(9)} ${(theirs === null ? '' : ms(theirs)).padStart(9)} `
      + `${ratio.padStart(12)}  ${wanted} ${verdict}`)
  }
  console.log(side ? `\ntheirs: ${side.versions}; medians of up to ${ROUNDS} alternating rounds`
    : '\nno python3 with scipy on the path: only this side was timed')
}

const fits: Record<string, FitTask> = Object.fromEntries(FITS.map((task) => [task.name, task]))
const sessions = Object.fromEntries(SIZES.filter((n) => n <= 1000).map((n) => [n, sessionOf(n)]))
const side = await startOtherSide({ span: SPAN, uForce: U_FORCE, uDrop: U_DROP, values: VALUES, fits, sessions })
await singleFits(side)
await monteCarloTrials(side)
await refits(side)
await growth(side)
await driving()
following()
await typing()
print(side)
side?.close()
if (rows.some(({ met }) => met === false)) process.exitCode = 1

/**
 * The projects study: `npm run study:projects -- [projects, default 1000] [fast projects, default 200]`.
 * Simulates whole projects from seeds and counts how often the stated intervals hold the truth, and
 * whether anything that touched the ground is ever stated as a plain number. Writes its table to
 * docs/evidence/projects.md; exit code 1 where a figure is out of its limits.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { axleModels, compare, configurationAero, touchDowns, type ConfigurationAero } from '@core/aero'
import { readSession, type RunResult } from '@core/airflow'
import { calibrateAxles, type Calibration, type CalibrationResult } from '@core/calibration'
import type { Statement } from '@core/uncertainty'
import { makeProject, type Project } from './projects/world'

const whole = (text: string | undefined, otherwise: number): number => {
  const asked = Number(text ?? otherwise)
  return Number.isInteger(asked) && asked >= 0 ? asked : otherwise
}
const projects = whole(process.argv[2], 1000)
const fastProjects = whole(process.argv[3], 200)
const LIMITS = { low: 0.93, high: 0.97 }

interface Count { held: number; plain: number; censored: number; bounds: number; wrong: number }
const counts = new Map<string, Count>()

/** Counts a statement against the truth; of each bound, whether it is on the right side. */
function count(name: string, statement: Statement, truth: number): void {
  const held = counts.get(name) ?? { held: 0, plain: 0, censored: 0, bounds: 0, wrong: 0 }
  counts.set(name, held)
  if (statement.kind === 'interval') {
    held.plain += 1
    if (truth >= statement.interval.low && truth <= statement.interval.high) held.held += 1
    return
  }
  held.censored += 1
  const { low = null, high = null } = statement.kind === 'between' ? statement
    : statement.kind === 'atLeast' ? { low: statement.bound }
      : statement.kind === 'atMost' ? { high: statement.bound } : {}
  held.bounds += Number(low !== null) + Number(high !== null)
  if ((low !== null && truth < low) || (high !== null && truth > high)) held.wrong += 1
}

const curveOf = (result: CalibrationResult): Calibration | null => (result.refused ? null : result)

interface Worked { readonly runs: readonly RunResult[]; readonly a: ConfigurationAero; readonly b: ConfigurationAero }

function work({ chassis, squat, airflow, passes, truth }: Project, into: string): Worked {
  const results = calibrateAxles(squat, chassis)
  const curves = { front: curveOf(results.front), rear: curveOf(results.rear) }
  const { runs } = readSession(airflow, chassis, curves)
  const [a, b] = (['a', 'b'] as const).map((id) => configurationAero(runs, id, chassis)!)
  const total = (of: 'a' | 'b') => truth.clAM2[of].front + truth.clAM2[of].rear
  const difference = compare(a!, b!)
  count(`${into}ClA, front axle`, a!.axles.front.claM2.statement, truth.clAM2.a.front)
  count(`${into}ClA, rear axle`, a!.axles.rear.claM2.statement, truth.clAM2.a.rear)
  count(`${into}ClA, total`, a!.total.claM2.statement, total('a'))
  count(`${into}balance (front share)`, a!.balance.frontShare, truth.clAM2.a.front / total('a'))
  count(`${into}centre of pressure`, a!.balance.centreMm, (chassis.wheelbaseMm.value * truth.clAM2.a.rear) / total('a'))
  count(`${into}difference of two, total`, difference.total.differenceM2.statement, total('a') - total('b'))
  count(`${into}difference of two, front`, difference.axles.front.differenceM2.statement,
    truth.clAM2.a.front - truth.clAM2.b.front)
  count(`${into}move of balance`, difference.balanceMove,
    truth.clAM2.a.front / total('a') - truth.clAM2.b.front / total('b'))
  const { firstMs } = touchDowns(axleModels(a!, curves, chassis), a!.densityKgM3)
  count(`${into}touch-down speed`, firstMs, truth.touchMs)
  const passing = configurationAero(readSession(passes, chassis, curves).runs, 'a', chassis)!
  count(`${into}passes: ClA, front axle`, passing.axles.front.claM2.statement, truth.wholeClAM2.front)
  count(`${into}passes: ClA, rear axle`, passing.axles.rear.claM2.statement, truth.wholeClAM2.rear)
  count(`${into}passes: ClA, total`, passing.total.claM2.statement, truth.wholeClAM2.front + truth.wholeClAM2.rear)
  return { runs, a: a!, b: b! }
}

let touchedRuns = 0
let plainFromTouched = 0

/** Nothing that rests on touched runs alone may be a plain number. */
function checkTouched({ runs, a, b }: Worked): void {
  const touched = runs.filter(({ states }) => states.some((state) => state.touched.front || state.touched.rear))
  touchedRuns += touched.length
  for (const { axles, totalN, grossTotalN } of touched) {
    const told = [axles.front.grossN, axles.rear.grossN, axles.front.netN, axles.rear.netN, totalN, grossTotalN]
    plainFromTouched += told.filter(({ statement }) => statement.kind === 'interval').length
  }
  const down = new Set(touched.map(({ runId }) => runId))
  for (const aero of [a, b]) {
    if (!aero.runIds.every((id) => down.has(id))) continue
    const statements = [
      aero.axles.front.claM2.statement, aero.axles.rear.claM2.statement, aero.total.claM2.statement,
      aero.balance.frontShare, aero.balance.centreMm, compare(a, b).total.differenceM2.statement,
    ]
    plainFromTouched += statements.filter(({ kind }) => kind === 'interval').length
  }
}

const started = Date.now()
for (let seed = 1; seed <= projects; seed++) checkTouched(work(makeProject(seed, false), ''))
for (let seed = 1; seed <= fastProjects; seed++) checkTouched(work(makeProject(100_000 + seed, true), 'strong jet: '))

const percent = (part: number, all: number): string => (all === 0 ? '' : `${((100 * part) / all).toFixed(1)} %`)
const rows = [...counts].map(([name, { held, plain, censored, bounds, wrong }]) =>
  `| ${name} | ${plain} | ${percent(held, plain)} | ${censored} | ${bounds} | ${percent(wrong, bounds)} |`)
const text = `# Evidence: whole projects

Written by \`npm run study:projects\`: ${projects} projects of two configurations at three speeds, each with its own
car, friction, loads, instruments' errors, uneven jet and air; and ${fastProjects} more in a jet strong enough to press
the tray onto the ground. A 95 % interval should hold the truth in 93 to 97 % of the projects (the count's own
standard error is about 0.8 %); a 95 % bound should be wrong in 5 % or fewer. The strong-jet intervals come from those runs alone that did not touch.

| result | stated plainly | interval holds the truth | stated as bounds, or not told | bounds | bounds wrong |
|---|---|---|---|---|---|
${rows.join('\n')}

Runs in which the tray touched: ${touchedRuns}. Results resting on touched runs alone that were stated as a plain
number: ${plainFromTouched}.
`
console.log(text)
console.log(`${((Date.now() - started) / 1000).toFixed(0)} s`)

/** A share is out of its limits where it is so by more than the standard error of its own count. */
const outside = (share: number, count: number): boolean => {
  const error = Math.sqrt((share * (1 - share)) / count)
  return share < LIMITS.low - error || share > LIMITS.high + error
}
const off = [...counts].filter(([name, { held, plain }]) =>
  !name.startsWith('strong') && plain >= 200 && outside(held / plain, plain))
const wrongBounds = [...counts].filter(([, { bounds, wrong }]) => bounds >= 100 && wrong / bounds > 0.065)
if (projects >= 500) {
  const page = new URL('../../docs/evidence/projects.md', import.meta.url)
  mkdirSync(new URL('.', page), { recursive: true })
  writeFileSync(page, text)
}
for (const [name] of [...off, ...wrongBounds]) console.error(`out of its limits: ${name}`)
if (off.length + wrongBounds.length + plainFromTouched > 0) process.exitCode = 1

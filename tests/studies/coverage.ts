/**
 * The coverage study: `npm run study:coverage -- [sessions per world, default 2000]`. Simulates whole
 * squat tests and readings with hidden truth and counts how often the stated intervals hold it.
 * Writes its table to docs/evidence/coverage.md; exit code 1 where a figure is out of its limits.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { countSession, newTally, type Tally } from './simulated/count'
import { WORLDS } from './simulated/worlds'

const asked = Number(process.argv[2] ?? 2000)
const sessions = Number.isInteger(asked) && asked > 0 ? asked : 2000
const only = process.argv[3]
/** One session in so many also has its Monte Carlo interval counted. */
const MONTE_CARLO_EVERY = 10

const percent = (part: number, whole: number): string => (whole === 0 ? 'none' : `${((100 * part) / whole).toFixed(1)} %`)

const started = Date.now()
const tallies = WORLDS.filter(({ name }) => only === undefined || name === only).map((world, at): Tally => {
  const tally = newTally(world.name)
  for (let i = 0; i < sessions; i++) countSession(world, 1_000_000 * (at + 1) + i, tally, i % MONTE_CARLO_EVERY === 0)
  console.log(line(tally))
  return tally
})
const seconds = (Date.now() - started) / 1000

function line(tally: Tally): string {
  const { world, intervals, covered, below, above, halfWidthN, bounds, boundsHeld } = tally
  return `| ${[
    world, tally.sessions, tally.refused, intervals, percent(covered, intervals), percent(below, intervals),
    percent(above, intervals), (halfWidthN / Math.max(1, intervals)).toFixed(3), bounds, percent(boundsHeld, bounds),
    `${tally.touchedPlain} of ${tally.touched}`, `${tally.unseenPlain} of ${tally.unseen}`, `${percent(tally.monteCarloCovered, tally.monteCarlo)} of ${tally.monteCarlo}`,
  ].join(' | ')} |`
}

function table(): string {
  return [
    '# Coverage of the stated intervals',
    '',
    `Made by \`npm run study:coverage -- ${sessions}\` (seeded; the same figures every time).`,
    '',
    'Each session draws every hidden error (scale gain, gauge scale and zero, wheelbase, gravity, weighings, placement,',
    'repeatability, rounding) from what the profile states of it, walks a squat test of seven loads up and down, and reads',
    'one force: the mean of three off/on readings, from the calibrated range or beyond the touch-down.',
    '',
    ...WORLDS.map(({ name, about }) => `- **${name}**: ${about}.`),
    '',
    '| world | sessions | refused | plain intervals | cover the truth | truth below | truth above | mean half-width, N | bounds | bounds that hold | touch seen: printed plain | touch unseen: printed plain | Monte Carlo covers |',
    '|---|---|---|---|---|---|---|---|---|---|---|---|---|',
    ...tallies.map(line),
    '',
    'Aim: 95 % intervals cover 93 to 97 %; one-sided 95 % bounds hold in 93 % or more; nothing on the ground is printed plain.',
    '',
  ].join('\n')
}

const failures = tallies.flatMap((tally) => {
  const share = tally.covered / tally.intervals
  const found: string[] = []
  if (!(share >= 0.93 && share <= 0.97)) found.push(`${tally.world}: intervals cover ${percent(tally.covered, tally.intervals)}`)
  if (tally.bounds > 0 && tally.boundsHeld / tally.bounds < 0.93) found.push(`${tally.world}: bounds hold too rarely`)
  const plain = tally.touchedPlain + tally.unseenPlain
  if (plain > 0) found.push(`${tally.world}: ${plain} readings on the ground printed plain`)
  return found
})
if (only === undefined) {
  mkdirSync(new URL('../../docs/evidence/', import.meta.url), { recursive: true })
  writeFileSync(new URL('../../docs/evidence/coverage.md', import.meta.url), table())
}
console.log(`${seconds.toFixed(0)} s`)
if (failures.length > 0) {
  console.log(failures.join('\n'))
  process.exitCode = 1
}

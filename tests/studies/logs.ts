/**
 * How well the level read from a log is, over vibration, length, rate, slope, lean and a missing rest. The
 * logs come from `tests/worlds/logs`, which share no formula with the reader. One command makes the page of
 * evidence: `npm run study:logs`; `-- --reps 40` for fewer logs of each kind.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import {
  DEFAULT_REDUCTION, proposeRest, reduceLog, regularise, runLevel, type LogTable, type ReduceOptions,
} from '@core/track'
import { newLogRun } from '../../renderer/screens/track/makeLog'
import { CALM, drive, normals, type Drive } from '../worlds/logs/drive'

const after = (flag: string): string | undefined => {
  const at = process.argv.indexOf(flag)
  return at > 0 ? process.argv[at + 1] : undefined
}
const REPS = Number(after('--reps') ?? 400)
/** Rows whose name holds this are driven, and take their places in the page that is there. */
const ONLY = after('--only') ?? ''

type Draw = (normal: () => number) => Partial<Drive>

interface Row {
  readonly name: string
  readonly world: Partial<Drive>
  readonly options?: Partial<ReduceOptions>
  /** What each log has of its own, from standard normal numbers. */
  readonly drawn?: Draw
}

interface Read { readonly off: number; readonly u: number; readonly inside: boolean }

function tableOf(world: Drive): LogTable {
  const { timeS, x, y, z } = drive(world)
  return {
    count: timeS.length, timeS, axes: { x, y, z }, speedMs: null, line: Uint32Array.from(timeS, (_, i) => i + 1),
    bad: { total: 0, byReason: {}, listed: [] }, blankLines: 0, lineCount: timeS.length,
  }
}

/** One log to its level against the truth, relative; null where none is told. */
function one(world: Drive, options: Partial<ReduceOptions>): Read | null {
  const log = regularise(tableOf(world))!
  const wanted: ReduceOptions = { ...DEFAULT_REDUCTION, signal: 'main', rest: proposeRest(log).rest, ...options }
  const { windows, taken, zeroUMs2 } = reduceLog(log, wanted)
  if (windows.length === 0) return null
  const run = newLogRun(undefined, {
    file: 'log.csv', fingerprint: '', windows, taken, zeroUMs2, cutoffHz: 3, sustainS: wanted.sustainS,
    manoeuvre: wanted.manoeuvre, configurationId: 'a', sensorScaleU: 0, accelerometerId: null, turn: null, radiusM: null,
    coneSpacingM: null, overM: wanted.overM, speedMs: null,
  })
  const level = runLevel({ id: 's' }, run, null)
  if (!('statement' in level) || level.statement.kind !== 'interval') return null
  const { value, u, interval } = level.statement
  const truth = world.levelMs2
  return { off: value / truth - 1, u: u / truth, inside: interval.low <= truth && truth <= interval.high }
}

/** What is aimed at; a row that left it, on either side, is driven with so many times as many logs. */
const [LEAST, MOST, AGAIN] = [0.93, 0.97, 4]

/** Bias, u and coverage of a row over its logs. */
function lineOf(row: Row, at: number): string {
  const normal = normals(9000 + at)
  const found: Read[] = []
  let untold = 0
  const inBand = (): boolean => {
    const share = found.filter(({ inside }) => inside).length / Math.max(1, found.length)
    return found.length === 0 || (share >= LEAST && share <= MOST)
  }
  for (let i = 0; i < REPS || (i < AGAIN * REPS && (i > REPS || !inBand())); i++) {
    const world = { ...CALM, ...row.world, ...row.drawn?.(normal), seed: (at * 100_003 + i * 7919 + 17) >>> 0 }
    const read = one(world, row.options ?? {})
    if (read) found.push(read)
    else untold++
  }
  if (found.length === 0) return `| ${row.name} | 0 (${untold} untold) | – | – | – |`
  const mean = (of: (read: Read) => number): number => found.reduce((sum, each) => sum + of(each), 0) / found.length
  const se = Math.sqrt(mean(({ off }) => off ** 2) - mean(({ off }) => off) ** 2) / Math.sqrt(found.length)
  const percent = (value: number, digits = 2): string => (100 * value).toFixed(digits)
  return `| ${row.name} | ${found.length}${untold ? ` (${untold} untold)` : ''} | ${percent(mean(({ off }) => off))} ± ${percent(se)} | `
    + `${percent(mean(({ u }) => u))} | ${percent(mean(({ inside }) => (inside ? 1 : 0)), 1)} |`
}

const CALM_GRID: readonly Row[] = [0.5, 1.5, 3, 5].flatMap((vibrationMs2) => [1, 3, 10].flatMap((minutes) =>
  [25, 100, 400].map((rateHz): Row => ({
    name: `vibration ${vibrationMs2} m/s², ${minutes} min, ${rateHz} Hz`,
    world: { vibrationMs2, rateHz, lengthS: 60 * minutes },
  }))))

/** A rest that does not stand level shows as much too little to the side from then on. */
const restLean = (deg: number): Draw => (normal) =>
  ({ restSideMs2: 9.80665 * Math.sin((normal() * deg * Math.PI) / 180) })
/** A sensor that leans to the side by chance. */
const lean = (deg: number): Draw => (normal) => ({ turnedDeg: [normal() * deg, 0, 0] })

const OTHERS: readonly Row[] = [
  ...[0.5, 5].map((vibrationMs2): Row => ({
    name: `vibration ${vibrationMs2} m/s², one way, rest on level ground`,
    world: { vibrationMs2, rateHz: 50, ways: 'one' }, options: { restLevelDeg: 0 },
  })),
  { name: 'one way, rest on ground level within 0.5°', world: { rateHz: 50, ways: 'one' }, drawn: restLean(0.5) },
  ...[1, 3, 6].flatMap((slopeDeg): Row[] => [
    { name: `ground falls by ${slopeDeg}°, laps told`, world: { rateHz: 50, slopeDeg, vibrationMs2: 1.5 }, options: { lap: { radiusM: 5 } } },
    { name: `ground falls by ${slopeDeg}°, laps not told`, world: { rateHz: 50, slopeDeg, vibrationMs2: 1.5 } },
    { name: `ground falls by ${slopeDeg}°, laps not told, 3 min`, world: { rateHz: 50, slopeDeg, vibrationMs2: 1.5, lengthS: 180 } },
  ]),
  ...[0.1, 0.2].map((swingShare): Row => ({
    name: `throttle swings the level by ${100 * swingShare} % at 0.3 Hz`, world: { rateHz: 50, swingShare, vibrationMs2: 1.5 },
  })),
  ...([[10, 5, 20], [25, -30, 130]] as const).map((turnedDeg): Row => ({
    name: `sensor turned by ${turnedDeg.join('°, ')}°, biased by 0.3 m/s²`, world: { rateHz: 50, turnedDeg, biasMs2: [0.3, -0.3, 0.2], vibrationMs2: 1.5 },
  })),
  { name: 'never stands, axis named, leans by 2° (u), bias 0.3 m/s²', world: { rateHz: 50, restS: 0, biasMs2: [0, 0.3, 0] }, drawn: lean(2), options: { signal: 'y' } },
  { name: 'never stands, axis named, leans by 2° (u), one way', world: { rateHz: 50, restS: 0, ways: 'one' }, drawn: lean(2), options: { signal: 'y' } },
  { name: 'never stands, direction not named', world: { rateHz: 50, restS: 0 } },
  { name: 'slalom, vibration 1.5 m/s²', world: { rateHz: 100, course: 'slalom', beat: 2.4, vibrationMs2: 1.5 }, options: { manoeuvre: 'slalom' } },
  { name: 'launches over 8 m, vibration 1.5 m/s²', world: { rateHz: 100, course: 'launch', beat: 2, vibrationMs2: 1.5 }, options: { manoeuvre: 'launch', sustainS: 1, overM: 8 } },
]

const PAGE = 'docs/evidence/logs.md'
const rows = [...CALM_GRID, ...OTHERS]
/** The lines of the page that is there, by their row's name. */
const there = ONLY ? readFileSync(PAGE, 'utf8').split('\n').filter((line) => line.startsWith('| ')) : []
const lines = rows.map((row, at) => {
  if (!row.name.includes(ONLY)) return there.find((line) => line.startsWith(`| ${row.name} |`)) ?? `| ${row.name} | not driven | – | – | – |`
  const line = lineOf(row, at)
  console.log(line)
  return line
})
/** What left the band and stayed there, said under the table. */
const outside = lines.flatMap((line) => {
  const [, name = '', , , , coverage = ''] = line.split('|').map((cell) => cell.trim())
  const share = parseFloat(coverage)
  return share < 100 * LEAST || share > 100 * MOST ? [`${name} (${share.toFixed(1)} %)`] : []
})
const within = (count: number): string => (196 * Math.sqrt((0.95 * 0.05) / count)).toFixed(1)
writeFileSync(PAGE, `# Levels read from acceleration logs

Made by \`npm run study:logs\`: ${REPS} simulated logs of each kind, by a simulator that imports nothing from the
program (\`tests/worlds/logs\`). Bias and u are relative to the true level, 6.2 m/s², in per cent; coverage is how often
the stated 95 % interval holds it. The sensor's scale is taken as known here: it would hide what is looked at. Where
nothing else is said: both ways round by turns, a rest of 5 s first, 1 min, 50 Hz. What leans "by 2° (u)" leans by a
normal number of its own in each log.

Aimed at: ${100 * LEAST} to ${100 * MOST} % for vibration of 0.5 to 5 m/s², 1 to 10 minutes, 25 to 400 Hz. With ${REPS} logs a coverage of 95 %
shows within ± ${within(REPS)} % (binomial, 95 %). A row that left the band with these, on either side, was driven with ${AGAIN * REPS} logs,
these among them, which tells it within ± ${within(AGAIN * REPS)} %; that figure stands.

| log | read | bias, % | u, % | coverage, % |
|---|---|---|---|---|
${lines.join('\n')}

${outside.length > 0 ? `Outside the band: ${outside.join('; ')}.` : 'No row is outside the band.'}
`)

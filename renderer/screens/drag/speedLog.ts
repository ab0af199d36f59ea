/** A log for coasts, its speeds or the pulses of a wheel: the same reader as for accelerations, and what it holds. */
import { speedStretches, type SpeedStretch } from '@core/drag'
import type { CoastRun } from '@core/schema'
import { LogReader, proposeLayout, proposeMapping, proposeUnits, type LogLayout, type LogMapping } from '@core/track'

export type SpeedLogTrouble = 'noNumbers' | 'noSpeed' | 'noStretch' | 'tooLarge' | 'notPulses'

/** What is looked for in a log, and what it holds: a speed column, or a line for each pulse of a wheel. */
export interface LookedFor {
  readonly purpose: CoastRun['purpose']
  readonly holds: 'speeds' | 'pulses'
  /** How far the car goes from pulse to pulse, mm; counts for pulses alone. */
  readonly perPulseMm: { readonly value: number; readonly u: number }
}

export interface SpeedLog {
  readonly fileName: string
  readonly lookedFor: LookedFor
  readonly timeS: Float64Array
  /** With pulses one less than moments: the mean from each pulse to the next. */
  readonly speedMs: Float64Array
  readonly stretches: readonly SpeedStretch[]
  /** Rows that could not be read. */
  readonly leftOut: number
}

type Outcome = SpeedLog | { readonly trouble: SpeedLogTrouble }

/** A log of coasts is minutes long; a larger file is read on the track screen. */
const MOST_BYTES = 30_000_000
export const HEAD_CHARACTERS = 65_536
/** Readings of one run at the most; a faster logger's are thinned evenly. */
const MOST_READINGS = 2000

/** The file's text; null where it is too large for a log of minutes. */
export const textOf = async (file: File): Promise<string | null> => (file.size > MOST_BYTES ? null : file.text())

export async function openSpeedLog(file: File, lookedFor: LookedFor): Promise<Outcome> {
  const text = await textOf(file)
  return text === null ? { trouble: 'tooLarge' } : readSpeedLog(text, file.name, lookedFor)
}

/** The stretches of a log's text; or why there are none. */
export function readSpeedLog(text: string, fileName: string, lookedFor: LookedFor): Outcome {
  const head = text.slice(0, HEAD_CHARACTERS)
  const layout = proposeLayout(head)
  if (!layout) return { trouble: 'noNumbers' }
  const mapping = proposeMapping(head, layout)?.mapping
  const speeds = lookedFor.holds === 'speeds'
  const read = speeds ? speedsOf(text, layout, mapping) : pulsesOf(text, layout, mapping, lookedFor)
  if ('trouble' in read) return read
  const { timeS, speedMs, leftOut } = read
  const at = speeds ? timeS : timeS.subarray(0, -1).map((t, i) => (t + timeS[i + 1]!) / 2)
  const stretches = speedStretches(at, speedMs, lookedFor.purpose)
  return stretches.length === 0 ? { trouble: 'noStretch' } : { fileName, lookedFor, timeS, speedMs, stretches, leftOut }
}

type Columns = Pick<SpeedLog, 'timeS' | 'speedMs' | 'leftOut'> | { readonly trouble: SpeedLogTrouble }

const NO_AXES: LogMapping['axes'] = { x: null, y: null, z: null }

function speedsOf(text: string, layout: LogLayout, mapping: LogMapping): Columns {
  if (!mapping.speed) return { trouble: 'noSpeed' }
  const reader = new LogReader(layout, { ...mapping, axes: NO_AXES })
  reader.push(text)
  const { timeS, speedMs, bad } = reader.end()
  return speedMs ? { timeS, speedMs, leftOut: bad.total } : { trouble: 'noSpeed' }
}

/** Moments of the column named as time, else of the first; speeds from each to the next. */
function pulsesOf(text: string, layout: LogLayout, mapping: LogMapping, { perPulseMm }: LookedFor): Columns {
  // A lone column with decimal commas looks like two columns; as moments only one of both readings rises.
  const asOne: LogLayout = { ...layout, delimiter: ';', decimal: 'comma', names: [layout.names[0]!] }
  const read = [layout, ...(layout.delimiter === ',' ? [asOne] : [])]
    .map((each) => momentsBy(text, each, mapping)).find(({ timeS }) => rises(timeS))
  if (!read) return { trouble: 'notPulses' }
  const { timeS, leftOut } = read
  return { timeS, speedMs: timeS.slice(1).map((t, i) => perPulseMm.value / 1000 / (t - timeS[i]!)), leftOut }
}

const rises = (timeS: Float64Array): boolean => timeS.length >= 3 && timeS.every((t, i) => i === 0 || t > timeS[i - 1]!)

function momentsBy(text: string, layout: LogLayout, mapping: LogMapping): { timeS: Float64Array; leftOut: number } {
  const time = momentsOf(text, layout, mapping)
  const reader = new LogReader(layout, { ...mapping, axes: NO_AXES, speed: null, time })
  reader.push(text)
  const { timeS, bad } = reader.end()
  return { timeS, leftOut: bad.total }
}

function momentsOf(text: string, layout: LogLayout, mapping: LogMapping): LogMapping['time'] {
  if ('column' in mapping.time) return mapping.time
  const time = { column: 0, unit: 'second' as const }
  const rows = text.slice(0, HEAD_CHARACTERS).split(/\r?\n/).slice(layout.firstLine - 1, -1)
    .map((line) => line.split(layout.delimiter))
  return { column: 0, unit: proposeUnits(layout, { ...mapping, time }, rows).units.time }
}

/** What a run out of one stretch holds, on its own clock; thinned where there is too much. */
export function dataOf(
  { fileName, lookedFor, timeS, speedMs }: SpeedLog, { from, to }: SpeedStretch,
): CoastRun['data'] {
  const every = Math.max(1, Math.ceil((to - from) / MOST_READINGS))
  const kept = Array.from({ length: Math.ceil((to - from) / every) }, (_, k) => from + k * every)
  if (lookedFor.holds === 'speeds') {
    return {
      kind: 'speeds', fileName, fingerprint: '', uSpeedMs: null, uTimeS: 0,
      readings: kept.map((i) => ({ timeS: timeS[i]! - timeS[from]!, speedMs: speedMs[i]! })),
    }
  }
  const { value, u } = lookedFor.perPulseMm
  return {
    kind: 'pulses', fileName, fingerprint: '', uTimeS: USUAL_PULSE_TIME_U,
    perPulseMm: { value: value * every, u: u * every }, timesS: kept.map((i) => timeS[i]! - timeS[from]!),
  }
}

/** Of a pulse that a small computer notes, s (common practice, no source); the builder corrects it. */
export const USUAL_PULSE_TIME_U = 0.001

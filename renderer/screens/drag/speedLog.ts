/** A log's speeds for coasts: the same reader as for accelerations, only the time and the speed of it. */
import { speedStretches, type SpeedStretch } from '@core/drag'
import { LogReader, proposeLayout, proposeMapping } from '@core/track'

export type SpeedLogTrouble = 'noNumbers' | 'noSpeed' | 'noStretch' | 'tooLarge'

export interface SpeedLog {
  readonly fileName: string
  readonly timeS: Float64Array
  readonly speedMs: Float64Array
  readonly stretches: readonly SpeedStretch[]
  /** Rows that could not be read. */
  readonly leftOut: number
}

/** A log of coasts is minutes long; a larger file is read on the track screen. */
const MOST_BYTES = 30_000_000
const HEAD_CHARACTERS = 65_536
/** Readings of one run at the most; a faster logger's are thinned evenly. */
const MOST_READINGS = 2000

export async function openSpeedLog(
  file: File, purpose: 'coast' | 'fullThrottle',
): Promise<SpeedLog | { readonly trouble: SpeedLogTrouble }> {
  if (file.size > MOST_BYTES) return { trouble: 'tooLarge' }
  return readSpeedLog(await file.text(), file.name, purpose)
}

/** The stretches of a log's text; or why there are none. */
export function readSpeedLog(
  text: string, fileName: string, purpose: 'coast' | 'fullThrottle',
): SpeedLog | { readonly trouble: SpeedLogTrouble } {
  const head = text.slice(0, HEAD_CHARACTERS)
  const layout = proposeLayout(head)
  if (!layout) return { trouble: 'noNumbers' }
  const mapping = proposeMapping(head, layout)?.mapping
  if (!mapping?.speed) return { trouble: 'noSpeed' }
  const reader = new LogReader(layout, { ...mapping, axes: { x: null, y: null, z: null } })
  reader.push(text)
  const { timeS, speedMs, bad } = reader.end()
  if (!speedMs) return { trouble: 'noSpeed' }
  const stretches = speedStretches(timeS, speedMs, purpose)
  return stretches.length === 0 ? { trouble: 'noStretch' } : { fileName, timeS, speedMs, stretches, leftOut: bad.total }
}

/** The readings of one stretch, thinned where there are too many. */
export function readingsOf(
  { timeS, speedMs }: SpeedLog, { from, to }: SpeedStretch,
): { timeS: number; speedMs: number }[] {
  const every = Math.max(1, Math.ceil((to - from) / MOST_READINGS))
  const readings: { timeS: number; speedMs: number }[] = []
  for (let i = from; i < to; i += every) readings.push({ timeS: timeS[i]! - timeS[from]!, speedMs: speedMs[i]! })
  return readings
}

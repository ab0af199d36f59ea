/** Track sessions made for tests: circles with known levels, drift and scatter. */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { SCHEMA_VERSION, type CircleRun, type TrackSession } from '@core/schema'

const AT = '2031-05-04T09:30:00.000Z'

export const circleRun = (
  id: string, configurationId: string, order: number, lapsS: readonly number[], more: Partial<CircleRun> = {},
): CircleRun => ({
  kind: 'circle', id, name: id, configurationId, order, surfaceTemperatureK: null, tyreNote: '', note: '', setAside: null,
  radiusM: { value: 2.5, u: 0.02 }, uTimeS: 0.005,
  lapsS: lapsS.map((timeS, index) => ({ id: `${id}-lap-${index + 1}`, timeS, setAside: null })), ...more,
})

export const trackSession = (runs: TrackSession['runs'], more: Partial<TrackSession> = {}): TrackSession => ({
  kind: 'track', schemaVersion: SCHEMA_VERSION, id: 'track-1', chassisId: 'car', revision: 1, name: 'Track', note: '',
  createdAt: AT, tyreLaw: null, runs, ...more,
})

export const setAsideNow = { at: AT, why: 'spun' }

/** Seeded normal numbers. */
export function normals(seed: number): () => number {
  const random = xoroshiro128plus(seed)
  return () => Math.sqrt(-2 * Math.log(1 - uniformFloat64(random))) * Math.cos(2 * Math.PI * uniformFloat64(random))
}

/** Lap time of a level on a radius: the inverse of a = 4 pi^2 R / T^2. */
export const lapOf = (levelMs2: number, radiusM: number): number => 2 * Math.PI * Math.sqrt(radiusM / levelMs2)

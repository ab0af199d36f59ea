/** The demo's bench with a day of laps that has all: an order with tyre temperatures, steady circles, a corner. */
import { produce } from 'immer'
import type { Exchange, TrackSession } from '@core/schema'
import { demoExchange } from './demo'

type Run = TrackSession['runs'][number]
const head = (id: string, configurationId: string, order: number) => ({
  id, name: id, configurationId, order, surfaceTemperatureK: null, tyreNote: '', note: '', setAside: null,
})

/** Lap times of each run, s, and how warm the tyres were, K, in the order driven. */
const CIRCLES = [
  ['tray-plain', 318, [6.26, 6.35, 6.28, 6.37, 6.29]], ['tray-skirts', 328, [6.17, 6.1, 6.1, 6.12, 6.13]],
  ['tray-skirts', 320, [6.12, 6.09, 6.14, 6.08, 6.11]], ['tray-plain', 327, [6.26, 6.27, 6.3, 6.26, 6.26]],
  ['tray-skirts', 319, [6.13, 6.07, 6.15, 6.16, 6.11]], ['tray-plain', 321, [6.27, 6.31, 6.32, 6.31, 6.24]],
  ['tray-plain', 330, [6.3, 6.28, 6.33, 6.27, 6.29]], ['tray-skirts', 324, [6.15, 6.09, 6.16, 6.13, 6.24]],
] as const

const STEADY_LAPS_S = [15.7, 11.2, 9.2, 7.9, 6.8]
const STEERED_DEG = { 'tray-plain': [3.07, 3.15, 3.24, 3.33, 3.45], 'tray-skirts': [3.0, 3.02, 3.04, 3.06, 3.08] }

function runs(): Run[] {
  const circles = CIRCLES.map(([setUp, warmK, laps], i): Run => ({
    ...head(`circle-${i + 1}`, setUp, i + 1), kind: 'circle', radiusM: { value: 9, u: 0.03 }, uTimeS: 0.01,
    tyreTemperatureK: { value: warmK, u: 0.5 },
    lapsS: laps.map((timeS, lap) => ({ id: `circle-${i + 1}-${lap}`, timeS, setAside: null })),
  }))
  const steady = Object.entries(STEERED_DEG).map(([setUp, angles], i): Run => ({
    ...head(`steady-${i + 1}`, setUp, 9 + i), kind: 'steady', steering: 'logged', uRadiusM: 0.005, uTimeS: 0.01, uSteerDeg: 0.02,
    points: angles.map((steerDeg, at) =>
      ({ id: `steady-${i + 1}-${at}`, radiusM: 5, lapS: STEADY_LAPS_S[at]!, steerDeg, setAside: null })),
  }))
  return [...circles, ...steady]
}

export const drivenExchange = (): Exchange => produce(demoExchange(), (draft) => {
  const heights = draft.sessions.filter(({ kind }) => kind === 'squat' || kind === 'airflow')
  const track = draft.sessions.find((each): each is TrackSession => each.kind === 'track')!
  track.runs = runs()
  track.corner = { speedMs: 12, radiusM: 9 }
  draft.sessions = [...heights, track]
})

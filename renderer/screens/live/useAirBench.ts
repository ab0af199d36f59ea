/** A blower run by the camera: off, on, off are found and kept; the load on each axle stands while it blows. */
import { AirWatch, liveLoads, type AirView, type Guards, type LiveAxle, type LiveBench, type LiveFrame } from '@core/camera'
import { AXLES, type AirRun, type AirflowSession, type Axle, type Chassis, type Touched } from '@core/schema'
import { ref, shallowRef, type Ref } from 'vue'
import { useAnalysis } from '../../stores/analysis'
import { newId } from '../../stores/ids'
import { useProject } from '../../stores/project'
import { keepStretch } from './keep'

export interface AirWishes {
  readonly session: Ref<AirflowSession | undefined>
  readonly run: Ref<AirRun | undefined>
  readonly pictureId: Ref<string>
  readonly farSideUMm: Ref<number>
  readonly touched: Ref<Touched>
  readonly say: (text: string) => void
  readonly texts: { kept: (air: 'off' | 'on') => string; again: string }
}

/** How often the number on the wall is worked out, s of the film. */
const EVERY_S = 0.25

export function useAirBench({ session, run, pictureId, farSideUMm, touched, say, texts }: AirWishes) {
  const project = useProject()
  const analysis = useAnalysis()
  const view = shallowRef<AirView | null>(null)
  const loads = shallowRef<Record<Axle, LiveAxle> | null>(null)
  const kept = ref<('off' | 'on')[]>([])
  let airWatch: AirWatch | null = null
  let firstS: number | null = null
  let baseS = 0
  let readAtS = -Infinity

  function open(bench: LiveBench, guards: Guards): void {
    airWatch = new AirWatch(bench, guards, newId('live'))
    kept.value = []
    loads.value = null
    firstS = null
    readAtS = -Infinity
    // What was read of the run before came before.
    baseS = Math.max(0, ...(run.value?.states ?? []).filter(({ id }) =>
      run.value?.readings.some(({ stepId }) => stepId === id)).map(({ atS }) => atS + 60))
  }

  function next(frame: LiveFrame): void {
    if (!airWatch) return
    firstS ??= frame.timeS
    const seen = airWatch.next(frame)
    view.value = seen
    if (seen.ended) keep(seen.ended)
    if (seen.phase === 'stopped') loads.value = null
    else if (frame.timeS - readAtS >= EVERY_S) {
      readAtS = frame.timeS
      wall(frame.timeS)
    }
  }

  function wall(timeS: number): void {
    const read = airWatch?.readNow(timeS)
    const car = project.chassis
    if (!read || !car) return
    const squats = analysis.result?.squats ?? []
    const named = squats.find(({ sessionId }) => sessionId === session.value?.squatSessionId)
    const squat = named ?? squats.findLast(({ axles }) => AXLES.some((axle) => !axles[axle].refused))
    const curveOf = (axle: Axle) => {
      const curve = squat?.axles[axle]
      return curve && !curve.refused ? curve : null
    }
    const branch = run.value?.settle === 'none' ? 'loading' : 'mid'
    loads.value = liveLoads(car as Chassis, { front: curveOf('front'), rear: curveOf('rear') }, branch, read, {
      farSideUMm: farSideUMm.value, touched: touched.value,
    })
  }

  function keep({ air, fromS, toS, heights }: NonNullable<AirView['ended']>): void {
    const [own, target] = [session.value, run.value]
    if (!own || !target) return
    const atS = Math.max(0, baseS + (fromS + toS) / 2 - (firstS ?? 0))
    project.changeSession('airflow', own.id, texts.kept(air), (draft) => {
      const each = draft.runs.find(({ id }) => id === target.id)
      if (each) keepStretch(each, air, atS, heights, pictureId.value, farSideUMm.value, touched.value, texts.again)
    })
    kept.value = [...kept.value, air]
    if (air === 'on') touched.value = { front: false, rear: false }
    say(texts.kept(air))
  }

  /** Ends the stretch in hand and keeps it. */
  function finish(): void {
    const now = view.value?.heights.timeS
    const last = now === undefined ? null : airWatch?.finish(now)
    if (last) keep(last)
    airWatch = null
    loads.value = null
  }

  return { view, loads, kept, open, next, finish }
}

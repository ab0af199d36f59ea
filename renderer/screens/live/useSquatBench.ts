/** Walks the open squat test by the camera: begins each step, keeps each reading, says what is next. */
import { plan, type PlannedStep } from '@core/calibration'
import { CALM_S, SquatWatch, type ExpectedWay, type Guards, type LiveBench, type LiveFrame, type SquatView } from '@core/camera'
import type { Chassis, SquatSession, Touched } from '@core/schema'
import { computed, ref, shallowRef, watch, type Ref } from 'vue'
import { newId } from '../../stores/ids'
import { useProject } from '../../stores/project'
import { massOfLoads } from '../squat/steps'
import { keepStep, stepInHand } from './keep'

export interface SquatWishes {
  readonly session: Ref<SquatSession | undefined>
  readonly pictureId: Ref<string>
  readonly farSideUMm: Ref<number>
  readonly touched: Ref<Touched>
  readonly say: (text: string) => void
  /** Names of what is kept and undone, and of what is to be done. */
  readonly texts: { kept: (step: number) => string; again: string; next: (step: PlannedStep) => string; done: string }
}

export function useSquatBench({ session, pictureId, farSideUMm, touched, say, texts }: SquatWishes) {
  const project = useProject()
  const view = shallowRef<SquatView | null>(null)
  const heaps = ref(4)
  let squatWatch: SquatWatch | null = null

  const planned = computed<PlannedStep[]>(() => {
    const own = session.value
    const car = project.chassis as Chassis | null
    if (!own || !car) return []
    return plan(car, {
      order: own.setup.order, settle: own.setup.settle, ramps: 1, heaps: heaps.value, uPlaceMm: 2, seed: 1,
      placesMm: [{ xMm: car.wheelbaseMm.value / 2, yMm: 0 }],
    })
  })
  const inHand = computed(() => (session.value ? stepInHand(session.value, planned.value) : null))
  const number = computed(() => (inHand.value ? planned.value.indexOf(inHand.value) + 1 : planned.value.length))
  /** Names of the loads that are laid on, and of those that are taken off, for the step in hand. */
  const change = computed(() => {
    const before = planned.value[number.value - 2]
    const idsOf = (step: PlannedStep | undefined | null): string[] => (step?.placed ?? []).map(({ loadId }) => loadId)
    const names = (ids: readonly string[]): string[] =>
      ids.map((id) => project.chassis?.loads.find((each) => each.id === id)?.name ?? id)
    const [now, then] = [idsOf(inHand.value), idsOf(before)]
    return {
      on: names(now.filter((id) => !then.includes(id))), off: names(then.filter((id) => !now.includes(id))),
      all: names(now),
    }
  })

  function wayOf(step: PlannedStep): ExpectedWay {
    const before = planned.value[planned.value.indexOf(step) - 1]
    if (!before) return 'none'
    const car = project.chassis as Chassis
    const mass = ({ placed }: PlannedStep): number => massOfLoads(car, placed.map(({ loadId }) => loadId))
    return mass(step) > mass(before) ? 'down' : mass(step) < mass(before) ? 'up' : 'none'
  }

  function open(bench: LiveBench, guards: Guards): void {
    squatWatch = new SquatWatch(bench, guards, CALM_S[session.value?.setup.settle ?? 'none'])
    begin()
  }
  /** Begins the step in hand, at the start and after each reading, undo or change of what is to be done. */
  function begin(): void {
    const step = inHand.value
    if (!squatWatch) return
    if (step) squatWatch.begin(newId('live'), wayOf(step))
    say(step ? texts.next(step) : texts.done)
  }
  /** What is to be done, told apart from the same plan made anew: hands that are at work must not be forgotten. */
  const deed = computed(() =>
    [session.value?.id, number.value, ...(inHand.value?.placed ?? []).map(({ loadId }) => loadId)].join(' '))
  watch(deed, begin)

  function next(frame: LiveFrame): void {
    if (!squatWatch) return
    const seen = squatWatch.next(frame)
    view.value = seen
    const [own, step] = [session.value, inHand.value]
    if (!seen.taken || !own || !step) return
    const { taken } = seen
    project.changeSession('squat', own.id, texts.kept(number.value), (draft) =>
      keepStep(draft, step, taken, pictureId.value, farSideUMm.value, touched.value, texts.again))
    touched.value = { front: false, rear: false }
  }

  return { view, heaps, planned, inHand, number, change, open, next, takeNow: () => squatWatch?.takeNow() }
}

/** What there is to do next with the picture in hand, from choosing its scale to handing its heights on. */
import { computed, type ComputedRef } from 'vue'
import type { Picture } from '@core/schema'
import { markIn, movesWithCar, type Slot } from './slots'
import { useCamera } from './store'

export type NextStep = 'scale' | 'marks' | 'follow' | 'windows' | 'send' | 'done'

export interface Next {
  readonly step: NextStep
  /** Marks that stand, and all that are wanted. */
  readonly made: number
  readonly wanted: number
}

/** Null where no picture is open or its file is being asked for. */
export function useNext(): ComputedRef<Next | null> {
  const camera = useCamera()
  return computed(() => {
    const own = camera.picture
    if (!own || !camera.file) return null
    // Once marks are followed, those of the car stand in another frame than the one shown.
    const wanted = camera.slots.filter(({ role }) => role !== 'edge' && !(camera.film && movesWithCar(role)))
    const made = wanted.filter((slot) => isMade(own, slot, camera.frameS)).length
    return { step: stepOf(own, made < wanted.length), made, wanted: wanted.length }
  })

  function stepOf(own: Picture, marksOpen: boolean): NextStep {
    if (!own.scale) return 'scale'
    if (marksOpen) return 'marks'
    if (own.kind === 'clip' && !camera.film) return 'follow'
    if (own.kind === 'clip' && !own.windows.some(({ use }) => use !== 'speed')) return 'windows'
    return camera.isHandedOn(own.id) ? 'done' : 'send'
  }
}

const isMade = (own: Picture, slot: Slot, frameS: number | null): boolean => markIn(own, slot, frameS) !== undefined

/** Tables of loads on the scale. */
import type { Chassis } from '@core/schema'
import { readLoads, type SheetBag } from '@core/sheet'
import { usePreferences } from '../../stores/preferences'
import { useProject } from '../../stores/project'
import { asJob, type SheetDesk } from '../../sheet/job'
import { takeBags } from '../../sheet/takeTrack'

/**
 * @param scaleId of the scale in hand
 * @param said label of the deed for undo, and how a load without a name is called
 */
export function loadsDesk(
  car: () => Chassis, scaleId: () => string, said: { readonly label: string; readonly bag: (count: number) => string },
): SheetDesk {
  const project = useProject()
  const preferences = usePreferences()
  return {
    kinds: ['loads'],
    kindAt: () => 'loads',
    jobFor: () => asJob<SheetBag[]>({
      order: (width) => (width === 1 ? ['mass'] : ['name', ...Array.from({ length: width - 1 }, () => 'mass' as const)]),
      read: (rows, map) => readLoads(rows, map, preferences.chosen),
      take(made) {
        let count = { rows: 0, readings: 0, corrected: 0 }
        project.changeChassis(said.label, (draft) => {
          count = takeBags(draft, made, scaleId() || car().scales[0]!.id, said.bag)
        })
        return count
      },
    }),
  }
}

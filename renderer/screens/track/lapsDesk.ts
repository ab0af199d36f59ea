/** Tables of laps: of the run in hand, or of many runs. */
import type { Chassis, TrackSession } from '@core/schema'
import { readLaps, type SheetRun } from '@core/sheet'
import { usePreferences } from '../../stores/preferences'
import { useProject } from '../../stores/project'
import { asJob, type SheetDesk } from '../../sheet/job'
import { newSetUps } from '../../sheet/takeAir'
import { addSetUps, takeRuns } from '../../sheet/takeTrack'
import { newTrack } from './makeTrack'

interface Said {
  /** Label of the deed for undo. */
  readonly label: string
  readonly sessionName: (count: number) => string
  readonly runName: (count: number) => string
}

export function lapsDesk(car: () => Chassis, session: () => TrackSession | undefined, said: Said): SheetDesk {
  const project = useProject()
  const preferences = usePreferences()
  return {
    kinds: ['laps'],
    kindAt: () => 'laps',
    jobFor(_kind, target) {
      const runId = target?.closest<HTMLElement>('[data-run]')?.dataset['run'] ?? session()?.runs.at(-1)?.id ?? null
      const lap = target?.closest<HTMLElement>('[data-lap]')?.dataset['lap']
      return asJob<SheetRun[]>({
        order: (width) => Array.from({ length: width }, () => 'lap'),
        read(rows, map) {
          const read = readLaps(rows, map, preferences.chosen)
          const named = read.guesses.includes('runsByColumn') ? [] : newSetUps(read.made, car())
          return { ...read, guesses: [...read.guesses, ...(named.length > 0 ? ['newSetUp' as const] : [])] }
        },
        take(made) {
          let count = { rows: 0, readings: 0, corrected: 0 }
          project.together(said.label, () => {
            const names = newSetUps(made, car())
            if (names.length > 0) project.changeChassis(said.label, (draft) => addSetUps(draft, names))
            if (!session()) project.addSession(newTrack(car(), said.sessionName(project.tracks.length + 1)))
            project.changeSession('track', session()!.id, said.label, (draft) => {
              const hand = { runId, fromLap: lap === undefined ? null : Number(lap) }
              count = takeRuns(draft, car(), made, hand, said.runName)
            })
          })
          return count
        },
      })
    },
  }
}

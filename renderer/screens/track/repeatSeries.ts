/** Every lap by the order of the runs, in the builder's units. */
import { ownError, type RunLevel, type TrackResult } from '@core/track'
import { halfWidth } from '@core/uncertainty'
import { fromKept, stepFromKept, unitFor } from '@core/units'
import type { ChartTable, Series } from '../../charts/series'
import type { usePreferences } from '../../stores/preferences'

interface Context {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
  readonly nameOf: (configurationId: string) => string
}
const MARKS = ['circle', 'triangle', 'rect', 'rectRot', 'star', 'crossRot'] as const
const ROLES = ['front', 'rear', 'lead', 'whole', 'bound', 'warn'] as const

const used = ({ repeats }: RunLevel) => repeats.filter((repeat) => repeat.used)
const runsOf = (result: TrackResult) => result.groups.flatMap((group) => group.runs)

export function repeatSeries(result: TrackResult, { t, preferences, nameOf }: Context): Series[] {
  const unit = unitFor('acceleration', preferences.chosen)
  const runs = runsOf(result)
  const ids = [...new Set(runs.map((run) => run.configurationId))]
  const means: Series = {
    label: t('track.mean'), role: 'ink', look: 'points', mark: 'rect', hollow: true,
    points: runs.map((run) => ({
      x: run.order + 0.34, y: fromKept(run.levelMs2.value, unit), uy: stepFromKept(ownHalfWidth(run), unit),
      said: `${run.name}, ${t('track.mean')}: ${preferences.show(run.levelMs2.value, 'acceleration', { u: ownHalfWidth(run) / 2 })}`,
    })),
  }
  return [...ids.map((id, index): Series => ({
    label: nameOf(id), role: ROLES[index % ROLES.length]!, look: 'points', mark: MARKS[index % MARKS.length]!,
    points: runs.filter((run) => run.configurationId === id).flatMap((run) => used(run).map((repeat, lap) => ({
      x: run.order + (lap - (run.repeats.length - 1) / 2) * 0.05,
      y: fromKept(repeat.levelMs2, unit), uy: 2 * stepFromKept(repeat.uMs2, unit),
      said: `${run.name}, ${repeat.id}: ${preferences.show(repeat.levelMs2, 'acceleration', { u: repeat.uMs2 })}`,
    }))),
  })), means]
}

/** From the run's own scatter alone: what the runs share would only lift all of them together. */
const ownHalfWidth = (run: RunLevel): number => halfWidth(ownError(run))

export function repeatTable(result: TrackResult, { t, preferences, nameOf }: Context): ChartTable {
  const symbol = preferences.symbol('acceleration')
  return {
    heads: [t('track.orderAxis'), t('track.runLabel'), t('airflow.configuration'), t('track.lap'), `${t('track.level')}, ${symbol}`, t('track.used')],
    rows: runsOf(result).flatMap((run) => run.repeats.map((repeat) => [
      run.order, run.name, nameOf(run.configurationId), repeat.id, preferences.parts(repeat.levelMs2, 'acceleration', { u: repeat.uMs2 }), repeat.used ? t('track.yes') : t('track.no'),
    ])),
  }
}

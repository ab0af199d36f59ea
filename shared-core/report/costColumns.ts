/** Columns of what downforce costs: drag by coasts and by lines, load per drag, laps of the builder's courses. */
import type { CostOfPair, CostOfSetup, CostResult } from '@core/analysis'
import type { CourseDifference, CourseOutcome } from '@core/course'
import type { LineDrag } from '@core/drag'
import { columnsOf, yesNo } from './columns'

const ofCost = columnsOf<CostOfSetup>()

export const COST = {
  setUp: ofCost.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  cda: ofCost.said('CdA', 'cda', 'area', ({ cdaM2 }) => cdaM2.statement),
  loadPerDrag: ofCost.said('load per drag', 'loadPerDrag', 'number', ({ loadPerDrag }) => loadPerDrag),
} as const

const ofCostPair = columnsOf<CostOfPair>()

export const COST_PAIR = {
  first: ofCostPair.text('first', 'firstOfPair', ({ configurationA }, { nameOf }) => nameOf(configurationA)),
  second: ofCostPair.text('second', 'secondOfPair', ({ configurationB }, { nameOf }) => nameOf(configurationB)),
  cda: ofCostPair.difference('CdA', 'cda', 'area', ({ cdaM2 }) => cdaM2.statement),
  loadPerDrag: ofCostPair.said('load gained per drag', 'loadPerDrag', 'number', ({ loadPerDrag }) => loadPerDrag),
} as const

const ofLine = columnsOf<LineDrag>()

export const LINE = {
  run: ofLine.text('run', 'run', ({ name }) => name),
  setUp: ofLine.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  control: ofLine.word('control', 'control', ({ control }) => yesNo(control)),
  drag: ofLine.said('drag', 'dragInJet', 'force', ({ dragN }) => dragN?.statement ?? null),
  cda: ofLine.said('CdA', 'cda', 'area', ({ cdaM2 }) => cdaM2?.statement ?? null),
  device: ofLine.said('CdA less control', 'cdaDevice', 'area', ({ deviceM2 }) => deviceM2?.statement ?? null),
  rollingFrom: ofLine.text('rolling from', null, ({ rollingFrom }) => rollingFrom),
  untold: ofLine.text('CdA untold, why', null, ({ untold }) => untold),
} as const

/** A set-up on a course, and a pair of them. */
export type Lap = CourseOutcome & { readonly course: string }
export type LapPair = CourseDifference & { readonly course: string }

export const lapsOf = ({ courses }: CostResult): Lap[] =>
  courses.flatMap(({ name, result }) => (result?.outcomes ?? []).map((each) => ({ ...each, course: name })))
export const lapPairsOf = ({ courses }: CostResult): LapPair[] =>
  courses.flatMap(({ name, result }) => (result?.differences ?? []).map((each) => ({ ...each, course: name })))

const ofLap = columnsOf<Lap>()

export const LAP = {
  course: ofLap.text('course', 'course', ({ course }) => course),
  setUp: ofLap.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  lap: ofLap.said('lap', 'lap', 'time', ({ lapS }) => lapS),
  topSpeed: ofLap.said('top speed', 'topSpeed', 'speed', ({ topSpeedMs }) => topSpeedMs),
  launch: ofLap.said('launch', 'launchTime', 'time', ({ launchS }) => launchS),
  least: ofLap.figure('least speed', null, 'speed', ({ leastMs }) => leastMs),
  most: ofLap.figure('largest speed', null, 'speed', ({ mostMs }) => mostMs),
} as const

const ofLapPair = columnsOf<LapPair>()

export const LAP_PAIR = {
  course: ofLapPair.text('course', 'course', ({ course }) => course),
  first: ofLapPair.text('first', 'firstOfPair', ({ configurationA }, { nameOf }) => nameOf(configurationA)),
  second: ofLapPair.text('second', 'secondOfPair', ({ configurationB }, { nameOf }) => nameOf(configurationB)),
  lap: ofLapPair.difference('lap', 'lap', 'time', ({ lapS }) => lapS),
  topSpeed: ofLapPair.difference('top speed', 'topSpeed', 'speed', ({ topSpeedMs }) => topSpeedMs),
  launch: ofLapPair.difference('launch', 'launchTime', 'time', ({ launchS }) => launchS),
  quicker: ofLapPair.figure('probability first is quicker', null, 'share', ({ probabilityQuicker }) => probabilityQuicker),
  breakEven: ofLapPair.figure('as quick at', 'asQuickAt', 'power', ({ breakEvenW }) => breakEvenW),
} as const

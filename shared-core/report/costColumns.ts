/** Columns of what downforce costs: drag by coasts and by lines, load per drag, laps of the builder's courses. */
import type { CostOfPair, CostOfSetup, CostResult, RankedSetup } from '@core/analysis'
import type { CourseDifference, CourseOutcome } from '@core/course'
import type { CoastsRead, LineDrag, LineSetup } from '@core/drag'
import type { Quantity } from '@core/units'
import { columnsOf, yesNo } from './columns'

const ofCoasts = columnsOf<CoastsRead>()

export const COASTS = {
  name: ofCoasts.text('session', 'coasts', ({ name }) => name),
  count: ofCoasts.figure('coasts', 'points', 'number', ({ fit }) => fit?.coasts.length ?? 0),
  rolling: ofCoasts.said('rolling, share of the weight', 'rollingShare', 'share', ({ rollingShare }) =>
    rollingShare?.statement ?? null),
  wind: ofCoasts.said('wind, + with the way out', 'windOut', 'speed', ({ windMs }) => windMs?.statement ?? null),
  gusts: ofCoasts.figure('gusts', 'gusts', 'speed', ({ fit }) => fit?.gustMs ?? null),
  untold: ofCoasts.text('untold, why', null, ({ untold }) => untold),
  partsFrom: ofCoasts.figure('would part: roll from', 'wouldPartFrom', 'speed', ({ wouldPart }) => wouldPart?.startMs ?? null),
  partsDownTo: ofCoasts.figure('down to', 'wouldPartTo', 'speed', ({ wouldPart }) => wouldPart?.endMs ?? null),
} as const

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
  pitchFront: ofLine.said('taken off: front', 'pitchFront', 'force', ({ pitchN }) => pitchN.front?.statement ?? null),
  pitchRear: ofLine.said('taken off: rear', 'pitchRear', 'force', ({ pitchN }) => pitchN.rear?.statement ?? null),
  rollingFrom: ofLine.text('rolling from', null, ({ rollingFrom }) => rollingFrom),
  untold: ofLine.text('CdA untold, why', null, ({ untold }) => untold),
} as const

const ofLineSetup = columnsOf<LineSetup>()

export const LINE_SETUP = {
  setUp: ofLineSetup.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  pulls: ofLineSetup.figure('pulls', 'pulls', 'number', ({ runIds }) => runIds.length),
  cda: ofLineSetup.said('CdA', 'cda', 'area', ({ cdaM2 }) => cdaM2.statement),
  device: ofLineSetup.said('CdA less control', 'cdaDevice', 'area', ({ deviceM2 }) => deviceM2?.statement ?? null),
} as const

/** A set-up of a list in order: what was asked for, in its quantity. */
export const rankColumns = (quantity: Quantity) => {
  const ofRank = columnsOf<RankedSetup>()
  return [
    ofRank.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
    ofRank.said('value', null, quantity, ({ said }) => said),
    ofRank.text('not told apart from', null, ({ tiedWith }, { nameOf }) => tiedWith.map(nameOf).join(', ') || null),
  ]
}

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
  quicker: ofLapPair.chance('probability first is quicker', null, ({ probabilityQuicker }) =>
    (probabilityQuicker === null ? null : { kind: 'is', value: probabilityQuicker })),
  breakEven: ofLapPair.figure('as quick at', 'asQuickAt', 'power', ({ breakEvenW }) => breakEvenW),
} as const

/**
 * What the tables of results hold, laid out once: each column has its name, its quantity and what it shows of a row.
 * Files (`tables/resultTables`), plain text (`electron/headless`) and the printed page (`parts/table`) paint them.
 */
import type { MatrixCell, Probability } from '@core/aero'
import type { RunResult } from '@core/airflow'
import type { ConfigurationResult } from '@core/analysis'
import { AXLES, type Axle, type Exchange } from '@core/schema'
import type { RunLevel, TrackComparison, TrackGroup } from '@core/track'
import type { Statement, Uncertain } from '@core/uncertainty'
import type { Quantity } from '@core/units'
import type { ReportKey } from './words'

/** What a row needs to be named. */
export interface Names {
  readonly nameOf: (configurationId: string) => string
}

export function namesOf({ chassis }: Exchange): Names {
  const names = new Map(chassis.configurations.map(({ id, name }) => [id, name]))
  return { nameOf: (id) => names.get(id) ?? id }
}

/** What stands in a cell, by the form of its column; null where there is nothing to show. */
interface Forms {
  readonly said: Statement
  readonly measured: Uncertain
  /** A chosen or counted number, or one without an uncertainty of its own. */
  readonly figure: number
  readonly chance: Probability
  readonly pValue: number
  /** A code, and the word of it on paper. */
  readonly word: { readonly code: string; readonly word: ReportKey }
  readonly text: string
}

type ColumnOf<Row, Form extends keyof Forms> = {
  readonly form: Form
  /** Name in files and in plain text. */
  readonly name: string
  /** Head on the printed page; null where it does not stand there. */
  readonly head: ReportKey | null
  readonly quantity: Quantity
  /** Shown with its sign: a difference. */
  readonly signed: boolean
  readonly of: (row: Row, names: Names) => Forms[Form] | null
}

/** A column of any form. */
export type Column<Row> = { [Form in keyof Forms]: ColumnOf<Row, Form> }[keyof Forms]

/** Makers of the columns of one kind of row. */
export function columnsOf<Row>() {
  const column = <Form extends keyof Forms>(form: Form, signed = false) => (
    name: string, head: ReportKey | null, quantity: Quantity, of: ColumnOf<Row, Form>['of'],
  ): ColumnOf<Row, Form> => ({ form, name, head, quantity, signed, of })
  const plain = <Form extends 'chance' | 'pValue' | 'word' | 'text'>(form: Form) => (
    name: string, head: ReportKey | null, of: ColumnOf<Row, Form>['of'],
  ): ColumnOf<Row, Form> => ({ form, name, head, quantity: 'number', signed: false, of })
  return {
    said: column('said'), difference: column('said', true), measured: column('measured'), figure: column('figure'),
    chance: plain('chance'), pValue: plain('pValue'), word: plain('word'), text: plain('text'),
  }
}

export const yesNo = (is: boolean): Forms['word'] => (is ? { code: 'yes', word: 'yes' } : { code: 'no', word: 'no' })

const ofSetUp = columnsOf<ConfigurationResult>()

export const SET_UP = {
  name: ofSetUp.text('set-up', 'setup', ({ name }) => name),
  claFront: ofSetUp.said('ClA front', 'claFront', 'area', ({ aero }) => aero.axles.front.claM2.statement),
  claRear: ofSetUp.said('ClA rear', 'claRear', 'area', ({ aero }) => aero.axles.rear.claM2.statement),
  cla: ofSetUp.said('ClA', 'cla', 'area', ({ aero }) => aero.total.claM2.statement),
  exponent: ofSetUp.said('exponent', 'exponent', 'number', ({ aero }) => aero.total.exponent.exponent),
  points: ofSetUp.figure('points', 'points', 'number', ({ aero }) => aero.total.points.length),
  birge: ofSetUp.figure('scatter factor', 'birge', 'number', ({ aero }) => aero.total.birge),
  frontShare: ofSetUp.said('front share', 'frontShare', 'share', ({ aero }) => aero.balance.frontShare),
  staticShare: ofSetUp.said('front share standing', 'staticShare', 'share', ({ aero }) => aero.balance.staticFrontShare),
  shift: ofSetUp.difference('less share standing', 'shift', 'shareMove', ({ aero }) => aero.balance.shift),
  centre: ofSetUp.said('centre of pressure', 'centre', 'length', ({ aero }) => aero.balance.centreMm),
  touches: ofSetUp.said('first touches at', 'touchesAt', 'speed', ({ touchDowns }) => touchDowns?.firstMs ?? null),
} as const

/** Load and clearance of a set-up at one speed. */
export type Predicted = ConfigurationResult['predictions'][number] & { readonly setUp: string }
export const predicted = (all: readonly ConfigurationResult[]): Predicted[] =>
  all.flatMap(({ name, predictions }) => predictions.map((each) => ({ ...each, setUp: name })))

const ofPrediction = columnsOf<Predicted>()

export const PREDICTION = {
  setUp: ofPrediction.text('set-up', 'setup', ({ setUp }) => setUp),
  speed: ofPrediction.figure('speed', 'speedHeld', 'speed', ({ speedMs }) => speedMs),
  density: ofPrediction.figure('density', null, 'density', ({ densityKgM3 }) => densityKgM3),
  front: ofPrediction.said('front', 'front', 'force', ({ forceN }) => forceN.front),
  rear: ofPrediction.said('rear', 'rear', 'force', ({ forceN }) => forceN.rear),
  total: ofPrediction.said('whole car', 'total', 'force', ({ totalN }) => totalN),
  weightShare: ofPrediction.said('share of weight', 'share', 'share', ({ weightShare }) => weightShare),
  clearanceFront: ofPrediction.said('clearance front', 'clearanceFront', 'length', ({ clearanceMm }) => clearanceMm.front),
  clearanceRear: ofPrediction.said('clearance rear', 'clearanceRear', 'length', ({ clearanceMm }) => clearanceMm.rear),
} as const

const ofPair = columnsOf<MatrixCell>()

export const PAIR = {
  first: ofPair.text('first', 'firstOfPair', ({ comparison }, { nameOf }) => nameOf(comparison.configurationA)),
  second: ofPair.text('second', 'secondOfPair', ({ comparison }, { nameOf }) => nameOf(comparison.configurationB)),
  front: ofPair.difference('front', 'front', 'area', ({ comparison }) => comparison.axles.front.differenceM2.statement),
  rear: ofPair.difference('rear', 'rear', 'area', ({ comparison }) => comparison.axles.rear.differenceM2.statement),
  total: ofPair.difference('whole car', 'total', 'area', ({ comparison }) => comparison.total.differenceM2.statement),
  chance: ofPair.chance('probability first has more', 'chance', ({ comparison }) => comparison.total.probabilityLarger),
  pHolm: ofPair.pValue('p after Holm', 'pHolm', ({ holmP }) => holmP),
  apart: ofPair.word('told apart', 'apart', ({ distinct }) => yesNo(distinct)),
  detectable: ofPair.figure('smallest detectable', 'detectable', 'area', ({ comparison }) => comparison.smallestDetectableM2),
  balanceMove: ofPair.difference('front share moves', null, 'shareMove', ({ comparison }) => comparison.balanceMove),
} as const

/** One axle of a run in moving air. */
export interface RunAxle { readonly run: RunResult; readonly axle: Axle }
export const axlesOf = (runs: readonly RunResult[]): RunAxle[] =>
  runs.flatMap((run) => AXLES.map((axle) => ({ run, axle })))

const ofRun = columnsOf<RunAxle>()

export const RUN = {
  run: ofRun.text('run', null, ({ run }) => run.name),
  setUp: ofRun.text('set-up', null, ({ run }, { nameOf }) => nameOf(run.configurationId)),
  kind: ofRun.text('kind', null, ({ run }) => run.kind),
  control: ofRun.word('control', null, ({ run }) => yesNo(run.control)),
  axle: ofRun.word('axle', null, ({ axle }) => ({ code: axle, word: axle })),
  speed: ofRun.measured('air speed', null, 'speed', ({ run }) => run.flow?.speedMs ?? null),
  pressure: ofRun.measured('dynamic pressure', null, 'pressure', ({ run }) => run.flow?.dynamicPressurePa ?? null),
  density: ofRun.figure('density', null, 'density', ({ run }) => run.air.densityKgM3.value),
  drop: ofRun.measured('drop', 'dropIn', 'length', ({ run, axle }) => run.axles[axle].totalDropMm),
  gross: ofRun.said('load as read', 'gross', 'force', ({ run, axle }) => run.axles[axle].grossN.statement),
  controlled: ofRun.said('load of the control run', 'controlLoad', 'force', ({ run, axle }) => run.axles[axle].controlN?.statement ?? null),
  net: ofRun.said('load less control', 'net', 'force', ({ run, axle }) => run.axles[axle].netN.statement),
} as const

/** A run on the track, and the circle it was driven on. */
export type Driven = RunLevel & Pick<TrackGroup, 'radiusM'>
export const driven = (groups: readonly TrackGroup[]): Driven[] =>
  groups.flatMap(({ runs, radiusM }) => runs.map((run) => ({ ...run, radiusM })))

const ofTrackRun = columnsOf<Driven>()

export const TRACK_RUN = {
  run: ofTrackRun.text('run', 'run', ({ name }) => name),
  setUp: ofTrackRun.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  manoeuvre: ofTrackRun.text('manoeuvre', null, ({ manoeuvre }) => manoeuvre),
  radius: ofTrackRun.figure('radius', null, 'distance', ({ radiusM }) => radiusM),
  order: ofTrackRun.figure('order', 'order', 'number', ({ order }) => order),
  repeats: ofTrackRun.figure('repeats', 'repeats', 'number', ({ repeats }) => repeats.filter(({ used }) => used).length),
  scatter: ofTrackRun.figure('scatter', 'scatter', 'acceleration', ({ scatterMs2 }) => scatterMs2),
  level: ofTrackRun.said('level', 'level', 'acceleration', ({ statement }) => statement),
  speed: ofTrackRun.measured('speed', 'speedHeld', 'speed', ({ speedMs }) => speedMs),
} as const

const ofGain = columnsOf<TrackComparison>()

export const GAIN = {
  before: ofGain.text('before', 'before', ({ beforeId }, { nameOf }) => nameOf(beforeId)),
  after: ofGain.text('after', 'after', ({ afterId }, { nameOf }) => nameOf(afterId)),
  manoeuvre: ofGain.text('manoeuvre', null, ({ manoeuvre }) => manoeuvre),
  driftRemoved: ofGain.word('drift taken out', 'driftRemoved', ({ driftRemoved }) => yesNo(driftRemoved)),
  gain: ofGain.difference('gain', 'gain', 'share', ({ gain }) => gain.statement),
  expected: ofGain.difference('expected by the bench', 'expected', 'share', ({ agreement }) => agreement?.expected.total.statement ?? null),
  normalised: ofGain.figure('normalised error', 'normalised', 'number', ({ agreement }) => agreement?.normalisedError ?? null),
  verdict: ofGain.word('verdict', 'verdict', ({ agreement }) =>
    agreement && { code: agreement.verdict, word: `verdict_${agreement.verdict}` as const }),
  difference: ofGain.difference('difference', null, 'acceleration', ({ differenceMs2 }) => differenceMs2),
  lessBench: ofGain.difference('gain less expected', null, 'share', ({ agreement }) => agreement?.difference ?? null),
  expectedFront: ofGain.difference('if the front alone limits', null, 'share', ({ agreement }) =>
    agreement?.expected.axles.front.statement ?? null),
  expectedRear: ofGain.difference('if the rear alone limits', null, 'share', ({ agreement }) =>
    agreement?.expected.axles.rear.statement ?? null),
} as const

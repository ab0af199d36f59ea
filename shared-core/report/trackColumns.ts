/** Columns of what the track says beside its levels: the load a gain needs, pairs, covariates, balance. */
import type { CornerBalance, GradientChange, TrackComparison, UndersteerGradient } from '@core/track'
import { columnsOf } from './columns'

const ofGain = columnsOf<TrackComparison>()

/** Load that the gain needs, beside the bench's. */
export const NEEDED = {
  before: ofGain.text('before', 'before', ({ beforeId }, { nameOf }) => nameOf(beforeId)),
  after: ofGain.text('after', 'after', ({ afterId }, { nameOf }) => nameOf(afterId)),
  speed: ofGain.figure('speed', 'speedHeld', 'speed', ({ agreement }) => agreement?.atSpeedMs ?? null),
  needed: ofGain.said('load needed', 'loadNeeded', 'force', ({ agreement }) => agreement?.neededN.statement ?? null),
  bench: ofGain.said('load by the bench', 'loadBench', 'force', ({ agreement }) =>
    agreement?.expected.afterN.statement ?? null),
  less: ofGain.difference('bench less needed', 'loadLess', 'force', ({ agreement }) =>
    agreement?.loadDifferenceN ?? null),
} as const

/** Neighbouring runs against each other, and the device with order and tyre temperature taken out. */
export const PAIRED = {
  before: NEEDED.before,
  after: NEEDED.after,
  pairs: ofGain.figure('pairs', 'pairs', 'number', ({ paired }) => paired?.pairs.length ?? null),
  gain: ofGain.difference('gain by pairs', 'gainPairs', 'share', ({ paired }) => paired?.gain ?? null),
  pValue: ofGain.pValue('p of no difference', 'pPairs', ({ paired }) => paired?.pValue ?? null),
  covariates: ofGain.difference('gain with order and tyres taken out', 'gainCovariates', 'share', ({ covariates }) =>
    covariates?.gain ?? null),
  perKelvin: ofGain.difference('level per kelvin', 'perKelvin', 'share', ({ covariates }) =>
    covariates?.perKelvin ?? null),
} as const

const ofGradient = columnsOf<UndersteerGradient>()

/** Understeer gradients, rad per m/s2, of single runs ... */
export const GRADIENT = {
  run: ofGradient.text('run', 'run', ({ name }) => name),
  setUp: ofGradient.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  gradient: ofGradient.difference('gradient rad/(m/s2)', 'gradient', 'number', ({ statement }) => statement),
  tends: ofGradient.word('tends to', 'tends', ({ tendency }) => ({ code: tendency, word: `tends_${tendency}` })),
} as const

const ofChange = columnsOf<GradientChange>()

/** ... and of one set-up after another. */
export const GRADIENT_CHANGE = {
  before: ofChange.text('before', 'before', ({ beforeId }, { nameOf }) => nameOf(beforeId)),
  after: ofChange.text('after', 'after', ({ afterId }, { nameOf }) => nameOf(afterId)),
  difference: ofChange.difference('change of gradient rad/(m/s2)', 'gradientChange', 'number', ({ difference }) => difference),
  tends: ofChange.word('understeers', 'understeers', ({ tendency }) => ({ code: tendency, word: `understeers_${tendency}` })),
} as const

const ofCorner = columnsOf<CornerBalance>()

/** What each set-up does in the chosen corner. */
export const CORNER = {
  setUp: ofCorner.text('set-up', 'setup', ({ configurationId }, { nameOf }) => nameOf(configurationId)),
  speed: ofCorner.figure('speed', 'speedHeld', 'speed', ({ speedMs }) => speedMs),
  front: ofCorner.said('front carries', 'frontCarries', 'share', ({ carried }) => carried.front),
  rear: ofCorner.said('rear carries', 'rearCarries', 'share', ({ carried }) => carried.rear),
  frontOverRear: ofCorner.said('front over rear', 'frontOverRear', 'share', ({ frontOverRear }) => frontOverRear),
  tends: ofCorner.word('tends to', 'tends', ({ tendency }) => ({ code: tendency, word: `tends_${tendency}` })),
} as const

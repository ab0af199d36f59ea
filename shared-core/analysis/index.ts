/** The face of the analysis room. */
export type * from './types'
export { DEFAULT_OPTIONS } from './types'
export { analyse } from './analyse'
export { atSpeed, toldAt } from './atSpeed'
export { rankBy, type RankedSetup, type RankQuestion } from './rank'
export { answerSpring, type SpringAnswer } from './springQuestion'

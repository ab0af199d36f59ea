/** The face of the answer room: what the whole work comes to, before any language. */
export type * from './types'
export { answerOf, endsOf, inOrder, type AnswerQuestion } from './answer'
export { answerSpeed, rangeRead, roundInside, toldSpeeds, type SpeedRange } from './speed'
export { firstToTouch } from './firstToTouch'
export { coastsRead, overviewOf, usedLaps, type Accuracy, type Overview } from './overview'

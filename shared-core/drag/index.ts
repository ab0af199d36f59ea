/** The face of the drag room. */
export type { CoastData, CoastFit, CoastInput, CoastSettings, ConfigurationDrag, FittedCoast, Speeds } from './types'
export { fitCoasts, type CoastOutcome, type CoastRefusal } from './coastFit'
export { speedStretches, type SpeedStretch } from './stretches'
export type { CoastParts } from './parts'
export { dataOf, readCoasts, type CoastsRead, type CoastsUntold, type DragDifference } from './session'
export {
  ASSUMED_ROLLING, readLines, ROLLING_WITHOUT_COASTS, type LineDrag, type LineSetup, type LinesRead, type LineUntold,
} from './line'

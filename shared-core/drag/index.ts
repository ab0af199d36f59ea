/** The face of the drag room. */
export type { CoastData, CoastFit, CoastInput, CoastSettings, ConfigurationDrag, FittedCoast } from './types'
export { fitCoasts, type CoastOutcome, type CoastRefusal } from './coastFit'
export { speedStretches, type SpeedStretch } from './stretches'
export type { CoastParts } from './parts'
export { dataOf, readCoasts, type CoastsRead, type CoastsUntold, type DragDifference } from './session'
export { ASSUMED_ROLLING, lineDrags, type LineDrag, type LineUntold } from './line'

/** The face of the drawing room: the car that carries its load, from the side and from above, as lines and texts. */
export type * from './types'
export { carAtSpeed, carWithBags } from './loadedCar'
export { fromAbove } from './fromAbove'
export { fromSide, largestLoad, stretchOf } from './fromSide'

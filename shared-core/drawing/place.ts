/** Where things of a car stand in the drawings: both share the axle lines, so that they stand under each other. */
import type { Axle } from '@core/schema'
import type { LoadedCar } from './types'

export const WIDTH = 800
/** The part of it without the words beside. */
export const BARE = { x: 160, width: 480 } as const
/** The axle lines of the drawing; beside them is room for words. */
export const AXLE_X: Readonly<Record<Axle, number>> = { front: 275, rear: 525 }
/** Ends of the bodywork beyond the axle lines, drawing units: a sketch, not the builder's car. */
export const NOSE = 62
export const TAIL = 56
/** Words of an axle stand this far from its line, outward: clear of the arrow, and of the bodywork's ends. */
export const BESIDE_ARROW = 30
export const BESIDE_WHEEL = 84

/** Drawing units for a millimetre along the car. */
export const perMm = ({ wheelbaseMm }: Pick<LoadedCar, 'wheelbaseMm'>): number =>
  (AXLE_X.rear - AXLE_X.front) / wheelbaseMm

export const alongX = (car: Pick<LoadedCar, 'wheelbaseMm'>, xMm: number): number => AXLE_X.front + xMm * perMm(car)

/** Outward of an axle: to the left in front, to the right behind. */
export const outward = (axle: Axle): -1 | 1 => (axle === 'front' ? -1 : 1)

export const tidy = (value: number): number => Math.round(value * 100) / 100

/** Width of a letter over its height, the widest the faces have on average in such texts (measured, bold). */
const LETTER = 0.56

/** Height of the letters with which a text keeps within its room, drawing units. */
export const sizeFor = (text: string, roomUnits: number, largest: number): number =>
  tidy(Math.min(largest, roomUnits / Math.max(1, [...text].length * LETTER)))

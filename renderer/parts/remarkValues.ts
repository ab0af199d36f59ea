/** The quantity that a value's name ends in, so that a remark's figures show in the builder's units. */
import type { Quantity } from '@core/units'

const ENDINGS: readonly (readonly [RegExp, Quantity])[] = [
  [/NPerMm$/, 'rate'], [/KgM3$/, 'density'], [/Ms2$/, 'acceleration'], [/M2$/, 'area'], [/Mm$/, 'length'], [/Ms$/, 'speed'],
  [/Kg$/, 'mass'], [/Pa$/, 'pressure'], [/N$/, 'force'], [/S$/, 'time'], [/Deg$/, 'angle'], [/Share$/, 'share'], [/share$/, 'share'],
]

/** Null where the name ends in no unit. */
export const quantityOfKey = (key: string): Quantity | null => ENDINGS.find(([ending]) => ending.test(key))?.[1] ?? null

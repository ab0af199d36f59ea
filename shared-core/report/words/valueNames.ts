/** The quantity that a remark's value has, by the ending of its name: figures show in the builder's units. */
import type { Quantity } from '@core/units'

const SHARES = /^(perRepeat|perRun|gain|relative|relativeU|gainU|weight|otherWeight|uneven)$|[sS]hare$/

const ENDINGS: readonly (readonly [RegExp, Quantity])[] = [
  [SHARES, 'share'], [/NPerMm$/, 'rate'], [/KgM3$/, 'density'], [/Ms2$/, 'acceleration'], [/M2$/, 'area'],
  [/Mm$/, 'length'], [/Ms$/, 'speed'], [/Kg$/, 'mass'], [/Pa$/, 'pressure'], [/N$/, 'force'], [/S$/, 'time'],
  [/Deg$/, 'angle'], [/Hz$/, 'frequency'],
]

/** Null where the name ends in no unit: the value is a plain number. */
export const quantityOfValue = (name: string): Quantity | null =>
  ENDINGS.find(([ending]) => ending.test(name))?.[1] ?? null

export { crop, luminanceOf, medianOf, sampleAt } from './luminance'
export type { Luminance, Px } from './luminance'

/** The face of the balance part: the understeer gradient, and what a corner asks of each axle. */
export { understeerGradient, type SteadyPoint, type UndersteerGradient } from './gradient'
export { gradientChanges, type GradientChange } from './change'
export { cornerBalance, type CornerBalance, type Grip } from './corner'

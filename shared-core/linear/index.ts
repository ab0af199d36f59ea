/** The face of the small linear algebra that several rooms need. */
export { solveSquare } from './solveSquare'
export { inverseOf } from './inverse'

/** The face of the course room. */
export type { CourseDifference, CourseOutcome, CourseResult, Segment, UncertainCar } from './types'
export { driveCourse, type CourseAsked } from './outcomes'
export { segmentLength } from './lap'
export { powerFrom, type PowerFound } from './power'

/** The face of the course room. */
export type { CourseDifference, CourseOutcome, CourseResult, Segment, UncertainCar } from './types'
export { driveCourse, type CourseAsked } from './outcomes'
export { cornerLevels, type CornerCar, type CornerLevels } from './corner'
export { segmentLength } from './lap'
export { powerFrom, type PowerFound } from './power'
export { courseFromLog, type CourseFound, type CourseLog, type NoCourse } from './fromLog'

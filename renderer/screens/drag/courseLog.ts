/** A log of laps, read for the course that was driven: its speeds, and which of its columns tell where it turned. */
import { courseFromLog, type CourseFound, type NoCourse } from '@core/course'
import { LogReader, proposeLayout, proposeMapping, proposeYaw, SENSOR_AXES, type LogTable, type SensorAxis } from '@core/track'
import { HEAD_CHARACTERS } from './speedLog'

export type CourseLogTrouble = 'noNumbers' | 'noSpeed' | 'noTurning'

/** The yaw rate, or the sensor's axis across the car. */
export type TurningSignal = 'yaw' | SensorAxis

export interface CourseLogRead {
  readonly table: LogTable
  /** What may tell the turning, the likeliest first. */
  readonly signals: readonly TurningSignal[]
}

export function readCourseLog(text: string): CourseLogRead | { readonly trouble: CourseLogTrouble } {
  const head = text.slice(0, HEAD_CHARACTERS)
  const layout = proposeLayout(head)
  if (!layout) return { trouble: 'noNumbers' }
  const { mapping } = proposeMapping(head, layout)
  const yaw = proposeYaw(layout)
  if (!mapping.speed) return { trouble: 'noSpeed' }
  const axes = SENSOR_AXES.filter((axis) => mapping.axes[axis] !== null).sort((a, b) => Number(b === 'y') - Number(a === 'y'))
  const signals: TurningSignal[] = [...(yaw ? ['yaw' as const] : []), ...axes]
  if (signals.length === 0) return { trouble: 'noTurning' }
  const reader = new LogReader(layout, { ...mapping, ...(yaw && { yaw }) })
  reader.push(text)
  return { table: reader.end(), signals }
}

export function courseOf({ table }: CourseLogRead, signal: TurningSignal): CourseFound | { readonly none: NoCourse } {
  const turning = signal === 'yaw' ? table.yawRadS : table.axes[signal]
  return courseFromLog({
    tS: table.timeS, vMs: table.speedMs!, turning: turning!, kind: signal === 'yaw' ? 'yawRate' : 'lateral',
  })
}

/** The floors of the house, from the ground up: what may import from what. The lint and a test hold it. */

/** Rooms of shared-core; each may import only from rooms on floors before its own. */
export const FLOORS: readonly (readonly string[])[] = [
  ['units', 'schema', 'linear'], ['services', 'uncertainty', 'remark', 'sheet'], ['chassis'], ['calibration'],
  ['airflow', 'camera'], ['aero', 'drag'], ['track', 'course'], ['analysis'], ['answer', 'drawing'], ['report'],
]

/** True where a room may import from another one. */
export function mayImport(room: string, other: string): boolean {
  if (room === other || (room === 'schema' && other === 'units')) return true
  const floorOf = (name: string): number => FLOORS.findIndex((rooms) => rooms.includes(name))
  return floorOf(other) >= 0 && floorOf(other) < floorOf(room)
}

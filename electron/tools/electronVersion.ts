/** Which versions of Electron may be shipped. */

/** So many of the newest major versions are mended (Electron's documentation, "Release timelines"; from memory). */
const MAINTAINED = 3

const majorOf = (version: string): number => Number.parseInt(version, 10)

/** Why this version may not be shipped any more, or null. @param newest the newest one there is */
export function electronProblem(used: string, newest: string): string | null {
  if (majorOf(used) > majorOf(newest) - MAINTAINED) return null
  return `Electron ${used} is no longer mended by its makers; the newest is ${newest}`
}

/** A function that remembers its last answers: laps are thousands of draws, and most changes don't touch them. */

const MOST = 8

/** The same answers; those to the newest few questions are not worked out again. Questions are compared by value. */
export function remembered<Args extends readonly unknown[], T>(work: (...args: Args) => T): (...args: Args) => T {
  const known = new Map<string, T>()
  return (...args) => {
    const key = JSON.stringify(args)
    if (known.has(key)) return known.get(key) as T
    const answer = work(...args)
    if (known.size >= MOST) known.delete(known.keys().next().value as string)
    known.set(key, answer)
    return answer
  }
}

/** Documents hold plain values only: what a screen hands in may still be wrapped for watching. */
import { toRaw } from 'vue'

/**
 * The same value without any wrapping inside, so that it can be sent to a worker or over the bridge.
 * What it shares with `before` is known to be plain and stays as it is.
 */
export function plain<T>(value: T, before?: unknown): T {
  if (typeof value !== 'object' || value === null || value === before) return value
  const raw = toRaw(value)
  if (Array.isArray(raw)) {
    const old = Array.isArray(before) ? before : []
    return raw.map((each, index) => plain(each, old[index])) as T
  }
  const old = (typeof before === 'object' && before !== null ? before : {}) as Record<string, unknown>
  return Object.fromEntries(Object.entries(raw).map(([key, each]) => [key, plain(each, old[key])])) as T
}

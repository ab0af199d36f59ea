/** Rows put in order by the head of a column: pressed once rising, twice falling, a third time as they came. */
import { ref, type Ref } from 'vue'

export interface Sorting<Key extends string> {
  readonly by: Ref<{ readonly key: Key; readonly falling: boolean } | null>
  readonly press: (key: Key) => void
  /** For `aria-sort` of a head. */
  readonly state: (key: Key) => 'ascending' | 'descending' | 'none'
  /** The rows in order; null values come last, and equal ones stay as they came. */
  readonly sorted: <Row>(rows: readonly Row[], value: (row: Row, key: Key) => number | string | null) => readonly Row[]
}

export function useSorting<Key extends string>(): Sorting<Key> {
  const by: Sorting<Key>['by'] = ref(null)
  return {
    by,
    press: (key) => {
      const now = by.value
      if (now?.key !== key) by.value = { key, falling: false }
      else by.value = now.falling ? null : { key, falling: true }
    },
    state: (key) => (by.value?.key !== key ? 'none' : by.value.falling ? 'descending' : 'ascending'),
    sorted: (rows, value) => {
      const now = by.value
      if (!now) return rows
      const sign = now.falling ? -1 : 1
      return [...rows].sort((one, other) => {
        const [a, b] = [value(one, now.key), value(other, now.key)]
        if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1
        return sign * (typeof a === 'string' ? a.localeCompare(String(b)) : a - Number(b))
      })
    },
  }
}

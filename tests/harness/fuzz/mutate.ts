/** Changes valid things into ones nobody would send: JSON trees, texts, bytes. Seeded: a finding comes back. */
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

export interface Chance {
  /** A whole number from `low` to `high`, both included. */
  int(low: number, high: number): number
  pick<T>(items: readonly T[]): T
}

/** A stream of chance from a seed. */
export function chance(seed: number): Chance {
  const generator = xoroshiro128plus(seed)
  const int = (low: number, high: number): number => uniformInt(generator, low, high)
  return { int, pick: (items) => items[int(0, items.length - 1)] as never }
}

function nested(depth: number, kind: 'list' | 'object'): unknown {
  let value: unknown = 1
  for (let count = 0; count < depth; count += 1) value = kind === 'list' ? [value] : { a: value }
  return value
}

/** Values that fit almost nowhere, and ids that would lead out of the library. */
const NASTY: readonly (() => unknown)[] = [
  () => null, () => '', () => -0, () => 1e308, () => -1e308, () => Number.MAX_SAFE_INTEGER + 2, () => 5e-324, () => 0.5,
  () => NaN, () => Infinity, () => true, () => [], () => ({}), () => [[]], () => '../../outside', () => '..', () => '/etc',
  () => 'C:\\outside', () => 'con', () => 'a\u0000b', () => '\ud800', () => '\u202e', () => 'A', () => 'a'.repeat(65),
  () => 'x'.repeat(20_000), () => '9'.repeat(400), () => nested(2_000, 'list'), () => nested(2_000, 'object'),
  () => Array.from({ length: 3_000 }, () => 0), () => JSON.parse('{"__proto__":{"polluted":true}}') as unknown,
  () => ({ constructor: { prototype: { polluted: true } } }), () => '2031-13-45T99:99:99.000Z', () => '__proto__',
]

const KEYS = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', '', ' ', '0', 'extra', '\u0000']

type Branch = unknown[] | Record<string, unknown>
const isBranch = (value: unknown): value is Branch => typeof value === 'object' && value !== null

/** Sets a key as JSON text would, `__proto__` included. */
const put = (branch: Branch, key: string | number, value: unknown): void =>
  void Object.defineProperty(branch, key, { value, enumerable: true, configurable: true, writable: true })

/** A copy of a JSON tree with one to four of its places changed. */
export function mutateTree(original: unknown, { int, pick }: Chance): unknown {
  const root = { tree: structuredClone(original) }
  for (let count = int(1, 4); count > 0; count -= 1) {
    let branch: Branch = root
    let key: string | number = 'tree'
    for (;;) {
      const next: unknown = (branch as Record<string | number, unknown>)[key]
      if (!isBranch(next) || int(0, 5) === 0) break
      const keys: (string | number)[] = Array.isArray(next) ? [...next.keys()] : Object.keys(next)
      if (keys.length === 0) break
      branch = next
      key = pick(keys)
    }
    change(branch, key, { int, pick })
  }
  return root.tree
}

function change(branch: Branch, key: string | number, { int, pick }: Chance): void {
  const value: unknown = (branch as Record<string | number, unknown>)[key]
  const way = int(0, 6)
  if (way === 0 && branch !== undefined && !Array.isArray(branch) && key !== 'tree') delete branch[key]
  else if (way === 1 && isBranch(value)) put(value, Array.isArray(value) ? value.length : pick(KEYS), pick(NASTY)())
  else if (way === 2 && Array.isArray(value) && value.length > 0) value.push(pick(value))
  else if (way === 3 && typeof value === 'number') put(branch, key, -value)
  else if (way === 4 && typeof value === 'number') put(branch, key, value * 10 ** int(-20, 20))
  else if (way === 5 && typeof value === 'string') put(branch, key, mutateText(value, { int, pick }))
  else put(branch, key, pick(NASTY)())
}

const SCRAPS = [
  '"', '{', '}', '[', ']', ',', ':', '\\', '\n', '\r', '\u0000', ';', '\t', '1e999', '-', 'NaN', 'null', '\ufeff', '"a":',
  '\ud83d\ude97', '\ud800', '0x10', '1,5', '""', '--', '/*', '=cmd()', '1:2:3', 'e', '.', '9'.repeat(400), '[['.repeat(500),
]

/** A text cut, doubled, spliced or with scraps thrown in. */
export function mutateText(text: string, { int, pick }: Chance): string {
  let result = text
  for (let count = int(1, 5); count > 0; count -= 1) {
    const at = int(0, result.length)
    const to = Math.min(result.length, at + int(0, 40))
    const way = int(0, 4)
    if (way === 0) result = result.slice(0, at)
    else if (way === 1) result = result.slice(0, at) + result.slice(to)
    else if (way === 2) result = result.slice(0, at) + pick(SCRAPS) + result.slice(at)
    else if (way === 3) result = result.slice(0, at) + pick(SCRAPS) + result.slice(to)
    else result = result.slice(0, to) + result.slice(at)
  }
  return result
}

/** Bytes with some of them changed, cut short or said to be long. */
export function mutateBytes(bytes: Uint8Array, { int, pick }: Chance): Uint8Array {
  const result = Uint8Array.from(bytes.subarray(0, int(0, 3) === 0 ? int(0, bytes.length) : bytes.length))
  if (result.length === 0) return result
  for (let count = int(0, 8); count > 0; count -= 1) {
    result[int(0, result.length - 1)] = pick([0, 1, 127, 128, 255, int(0, 255)])
  }
  return result
}

/** Seeded draws for tests that take many random parts of one thing. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

/** Even draws from 0 up to 1, the same for the same seed. */
export function seededDraws(seed: number): () => number {
  const generator = xoroshiro128plus(seed)
  return () => uniformFloat64(generator)
}

/** The list in an order of chance (R. A. Fisher and F. Yates, Statistical Tables, 1938). */
export function shuffled<T>(list: readonly T[], draws: () => number): T[] {
  const copy = [...list]
  for (let i = copy.length - 1; i > 0; i--) {
    const j = Math.floor(draws() * (i + 1))
    ;[copy[i], copy[j]] = [copy[j]!, copy[i]!]
  }
  return copy
}

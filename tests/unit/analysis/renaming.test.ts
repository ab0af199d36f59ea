/** What a source is stands in its fields: with every id and pool renamed, each result stays as it was. */
import { analyse } from '@core/analysis'
import { cameraBudget, heightOf, readingSourceOf } from '@core/camera'
import { errorOf, subtractClaims, type Source } from '@core/uncertainty'
import { describe, expect, it, vi } from 'vitest'
import { makeDemo } from '../../../seeds/demo'
import { carMark, mark, still } from '../camera/pictures'

/** Of the gauge and the anemometer, as they are read in each run; not of the curve, the instruments or the jet. */
const ANEW = ['readingRepeats', 'readingRounding', 'traverseRepeats', 'traverseRounding']

const seam = vi.hoisted(() => ({ renames: false, count: 0 }))

vi.mock(import('../../../shared-core/uncertainty/source'), async (original) => {
  const real = await original()
  const names = new Map<string, string>()
  const renamed = (name: string): string => {
    const held = names.get(name) ?? `${(names.size * 7919 + 13) % 10_007}/${names.size}`
    names.set(name, held)
    seam.count = names.size
    return held
  }
  const of = (source: Source): Source => (seam.renames
    ? { ...source, id: renamed(source.id), ...(source.pool === undefined ? {} : { pool: renamed(source.pool) }) }
    : source)
  return {
    ...real,
    known: (...args) => of(real.known(...args)),
    fromData: (...args) => of(real.fromData(...args)),
    // The source merged has its new names already; its own pool stays as it is.
    merged: (source, role, id, scatter) => {
      const made = real.merged(source, role, id, scatter)
      return seam.renames ? { ...made, id: renamed(id), ...(scatter ? { pool: renamed(scatter.pool) } : {}) } : made
    },
  }
})

/** A result without the names of its sources. */
const unnamed = (result: unknown): unknown => JSON.parse(JSON.stringify(result, (key, value: unknown) => {
  if (key === 'source' && typeof value === 'string') return ''
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value)
  if (value === null || typeof value !== 'object' || !('lifetime' in value)) return value
  return { ...value, id: '', pool: '' }
}))

function bothWays<T>(make: () => T): [T, T] {
  seam.renames = false
  const plain = make()
  seam.renames = true
  const renamed = make()
  seam.renames = false
  return [plain, renamed]
}

describe('renaming every source', () => {
  it('changes nothing in the analysis of the demo', () => {
    const { exchange } = makeDemo(1)
    const [plain, renamed] = bothWays(() => analyse(exchange, {
      speedsMs: [10, 20], heightUpToMs: 30, heightsFor: 'all', corners: true, cornerRadiusM: 6, courses: true,
    }))
    expect(seam.count).toBeGreaterThan(100)
    expect(JSON.stringify(renamed)).not.toContain('"reading:')
    expect(unnamed(renamed)).toEqual(unnamed(plain))
  })

  it('leaves apart what a further run would draw anew', () => {
    const { exchange } = makeDemo(1)
    const [a, b] = analyse(exchange).configurations
    const difference = subtractClaims(a!.aero.total.claM2.claim, b!.aero.total.claM2.claim)
    if (difference.kind !== 'value') throw new Error(difference.kind)
    const anew = errorOf(difference.value, 'reading', 'run').parts.map(({ source }) => source.role)
    expect([...new Set(anew)].sort()).toEqual(ANEW)
  })

  it('changes nothing in a picture’s height, its budget and what is stored of it', () => {
    const chassis = carMark('chassis', 500, 260, { snapped: true })
    const scale = [mark('scaleStart', 100, 200, { uPx: 0.3 }), mark('scaleEnd', 200, 200, { uPx: 0.3 })]
    const picture = still([...scale, mark('ground', 100, 500), chassis], { exposureS: 0.001, speedMs: 6 })
    const [plain, renamed] = bothWays(() => {
      const result = heightOf(picture, 'frontLeft', 'groundToChassis')
      if (result.kind !== 'height') throw new Error(result.lack)
      return { result, budget: cameraBudget(result.heightMm), stored: readingSourceOf(result.heightMm, 'p', [chassis]) }
    })
    expect(plain.stored.uMm).toBeGreaterThan(0)
    expect(unnamed(renamed)).toEqual(unnamed(plain))
  })
})

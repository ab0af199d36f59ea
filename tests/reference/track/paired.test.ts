/**
 * Pairs, covariates and the load a gain needs, against scipy 1.17 and numpy 2.4, computed once from the figures
 * below: `scipy.stats.ttest_rel` of the logarithms, `numpy.linalg.lstsq` of ln level on set-up, order and tyre
 * temperature, `scipy.optimize.brentq` on the gain that a load gives, its u by central differences.
 */
import { describe, expect, it } from 'vitest'
import { agreement, covariateFit, expectedGain, pairedResult, type RunLevel, type Sensitivity } from '@core/track'
import { exact, fromSource, known, valueClaim } from '@core/uncertainty'

const near = (value: number): number => expect.closeTo(value, 10) as number
const run = (configurationId: string, order: number, level: number, tyreK: number | null = null): RunLevel => ({
  runId: `r-${order}`, name: `run ${order}`, configurationId, kind: 'circle', manoeuvre: 'circle', order,
  surfaceTemperatureK: null, tyreTemperatureK: tyreK === null ? null : { value: tyreK, u: 0 }, ballastKg: 0,
  levelMs2: exact(level), statement: { kind: 'untold', reason: 'missing', because: { code: 'singleLap' } },
  repeats: [], scatterMs2: null, scatterFrom: 'none', speedMs: null, remarks: [],
})

describe('pairs of neighbours', () => {
  // A B B A, B A A B: before 8.91, 8.95, 8.88, 8.93; after 9.33, 9.41, 9.30, 9.28, pair by pair.
  const runs = [
    run('a', 1, 8.91), run('b', 2, 9.33), run('b', 3, 9.41), run('a', 4, 8.95),
    run('b', 5, 9.3), run('a', 6, 8.88), run('a', 7, 8.93), run('b', 8, 9.28),
  ]

  it('are the paired t test of scipy on the logarithms', () => {
    const found = pairedResult(runs, 'a', 'b')!
    expect(found.pairs.map(({ beforeRunId, afterRunId }) => [beforeRunId, afterRunId]))
      .toEqual([['r-1', 'r-2'], ['r-4', 'r-3'], ['r-6', 'r-5'], ['r-7', 'r-8']])
    expect(found.pValue).toBeCloseTo(0.00034418205895437557, 9)
    expect(found.runShare).toBeCloseTo(0.003454347410674689, 12)
    expect([found.beganBefore, found.beganAfter]).toEqual([2, 2])
    if (found.gain.kind !== 'interval') throw new Error(found.gain.kind)
    expect(found.gain.value).toBeCloseTo(0.046247075334022426, 12)
    // u of the mean logarithm times the ratio; t of three degrees of freedom, 3.182446 (tables of Student's t).
    const u = 0.0024425924786622647 * 1.046247075334022426
    expect(found.gain.u).toBeCloseTo(u, 12)
    expect(found.gain.interval.high).toBeCloseTo(0.046247075334022426 + 3.182446 * u, 7)
  })

  it('need two, and take each run once', () => {
    expect(pairedResult(runs.slice(0, 3), 'a', 'b')).toBeNull()
    expect(pairedResult(runs.filter(({ configurationId }) => configurationId === 'a'), 'a', 'b')).toBeNull()
  })
})

describe('order and tyre temperature beside the device', () => {
  const kelvin = [300, 312, 304, 311, 303, 318, 309, 306]
  const levels = [8.9, 9.31, 9.36, 8.97, 9.42, 9.01, 8.99, 9.45]
  const runs = ['a', 'b', 'b', 'a', 'b', 'a', 'a', 'b'].map((id, i) => run(id, i + 1, levels[i]!, kelvin[i]))

  it('are the least squares of numpy', () => {
    const { gain, perRun, perKelvin, dof, together } = covariateFit(runs, 'a', 'b')!
    expect(together).toEqual([])
    expect(dof).toBe(4)
    expect(gain).toMatchObject({
      value: near(0.046408945384099114), u: near(0.002014482934485211),
    })
    expect(perRun).toMatchObject({
      value: near(0.0021669834390273465), u: near(0.00042110954169042534),
    })
    expect(perKelvin).toMatchObject({
      value: near(-4.1718256111787644e-05), u: near(0.00018666662075581192),
    })
  })

  it('tell the device apart where only order and tyres moved together: numpy without the tyres', () => {
    const rising = runs.map((each) => ({ ...each, tyreTemperatureK: { value: 300 + 2 * each.order, u: 0 } }))
    const { gain, perKelvin, dof, together } = covariateFit(rising, 'a', 'b')!
    expect(together).toEqual([['order', 'tyreTemperature']])
    expect(dof).toBe(5)
    expect(perKelvin.kind).toBe('untold')
    expect(gain).toMatchObject({
      value: near(0.04655083166089864), u: near(0.0017208809341817655),
    })
  })

  it('give no number where the tyres warmed with the device, and say so', () => {
    const warm = runs.map((each) => ({
      ...each, tyreTemperatureK: { value: each.configurationId === 'b' ? 320 + 0.1 * each.order : 300, u: 0 },
    }))
    const found = covariateFit(warm, 'a', 'b')!
    expect(found.gain.kind).toBe('untold')
    expect(found.together).toContainEqual(['device', 'tyreTemperature'])
  })

  it('are left out where a run has no temperature', () => {
    const one = runs.map((each, i) => (i === 2 ? { ...each, tyreTemperatureK: null } : each))
    expect(covariateFit(one, 'a', 'b')).toBeNull()
  })
})

describe('the load that a gain needs', () => {
  const part = (value: number, u: number, id: string) => fromSource(value, u, known('lapTiming', id))
  const sensitivity: Sensitivity = {
    sensitivity: part(0.22, 0.1, 's'), from: 'entered', points: [], chiSquare: null, dof: null, remarks: [],
  }
  const weight = { totalN: part(14.5, 0.05, 'w'), axlesN: null, gravityMs2: 9.80665 }
  const loads = { base: part(1.4, 0.2, 'f0'), device: exact(3) }
  const bench = {
    loadAt: (id: string) => {
      const claim = valueClaim(loads[id as keyof typeof loads])
      return { axles: { front: claim, rear: claim }, total: claim }
    },
  }
  const expected = expectedGain(bench, weight, sensitivity, 'base', 'device', { before: exact(9), after: exact(9) })!
  const at = { manoeuvre: 'circle', drift: 'none', driftRemoved: true, warmerK: null } as const

  it('is the root of the gain that a load gives, with its u', () => {
    const { neededN, loadDifferenceN } = agreement(valueClaim(part(0.06, 0.004, 'g')), expected, weight.totalN, 9, at)
    if (neededN.statement.kind !== 'interval' || loadDifferenceN.kind !== 'interval') throw new Error('untold')
    expect(neededN.statement.value).toBeCloseTo(2.6332811418056687, 9)
    expect(neededN.statement.u).toBeCloseTo(0.28329816838485106, 6)
    expect(loadDifferenceN.value).toBeCloseTo(3 - 2.6332811418056687, 9)
  })

  it('gives the bench’s own load back for the gain that the bench expects', () => {
    const { neededN } = agreement(expected.total.claim, expected, weight.totalN, 9, at)
    expect(neededN.statement).toMatchObject({ kind: 'interval', value: expect.closeTo(3, 9) as number })
  })
})

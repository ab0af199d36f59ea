/** Speed law, exponent, height law, balance and comparison on runs made by hand. */
import { aboveGround, compare, comparisonMatrix, configurationAero, holm, repeatsNeeded, type ConfigurationAero } from '@core/aero'
import type { RunResult } from '@core/airflow'
import { standardUncertainty, statementOf, type Statement } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { chassis } from '../airflow/bench'
import { atLeast, load, made, pressure, readAnew } from './runs'

const aeroOf = (runs: readonly RunResult[], id = 'plain'): ConfigurationAero => {
  const aero = configurationAero(runs, id, chassis())
  if (!aero) throw new Error('no runs')
  return aero
}
const plain = (statement: Statement) => {
  if (statement.kind !== 'interval') throw new Error(JSON.stringify(statement))
  return statement
}
const codes = ({ remarks }: ConfigurationAero) => remarks.map(({ code }) => code)

/** Runs at speeds with ClA of 0.01 and 0.02 m2. */
const steady = (speeds: readonly number[], name = '', scale = 1, id = 'plain') => speeds.map((speed, i) => {
  const q = pressure(speed, 0.02)
  return made({
    id: `${name}run-${i}`, configurationId: id, pressurePa: q,
    front: load(0.01 * scale * q.value, 0.05, `${name}f${i}`), rear: load(0.02 * scale * q.value, 0.05, `${name}r${i}`),
  })
})

describe('speed law', () => {
  it('weighs runs by what they know alone, and leaves shared errors whole', () => {
    const aero = aeroOf(steady([10, 20]))
    const { claM2, points } = aero.axles.front
    // Own u of ClA goes with 1/q: weights 1 : 16.
    expect(points[0]!.weight).toBeCloseTo(1 / 17, 6)
    expect(plain(claM2.statement).value).toBeCloseTo(0.01, 12)
    const own = 0.05 / 240 * Math.sqrt(16 / 17)
    expect(plain(claM2.statement).u).toBeCloseTo(Math.hypot(0.02 * 0.01, own), 9)
    expect(plain(aero.total.claM2.statement).value).toBeCloseTo(0.03, 12)
  })

  it('a shared relative error does not pull the mean to the smaller value (Peelle\'s puzzle)', () => {
    // Two values 1.5 and 1.0 with 10 % own and 20 % shared error: the naive estimate is 0.88, below both.
    const runs = [1.5, 1].map((value, i) => made({
      id: `run-${i}`, pressurePa: { ...pressure(10), parts: pressure(10, 0.2).parts }, front: load(value, 0.1 * value, `f${i}`),
      rear: load(1, 0.1, `r${i}`),
    }))
    const cla = plain(aeroOf(runs).axles.front.claM2.statement).value * 60
    expect(cla).toBeGreaterThan(1)
    expect(cla).toBeLessThan(1.5)
  })

  it('is wider where the weights rest on variances that were estimated (Meier 1953)', () => {
    const u = [0.03, 0.05, 0.08]
    const ofDof = (dof: number) => u.map((each, i) => made({
      id: `run-${i}`, pressurePa: pressure(10), front: load(0.6, each, `f${i}`, dof), rear: load(1, 0.05, `r${i}`),
    }))
    // Graybill and Deal's mean and Meier's variance of it: 1/W (1 + sum 4/n w (1 - w)).
    const all = u.reduce((total, each) => total + 1 / each ** 2, 0)
    const extra = u.reduce((total, each) => {
      const weight = 1 / each ** 2 / all
      return total + (4 / 8) * weight * (1 - weight)
    }, 0)
    const stated = (dof: number) => plain(aeroOf(ofDof(dof)).axles.front.claM2.statement).u * 60
    expect(stated(Infinity)).toBeCloseTo(1 / Math.sqrt(all), 9)
    expect(stated(8)).toBeCloseTo(Math.sqrt((1 + extra) / all), 9)
  })

  it('what scatters beyond an error goes where that error goes: shared by both axles, it is shared', () => {
    const runs = [0.6, 1.2, 0.9].map((value, i) => made({
      id: `run-${i}`, pressurePa: pressure(10), front: load(value, 0.05, `both${i}`), rear: load(value, 0.05, `both${i}`),
    }))
    const { axles, total } = aeroOf(runs)
    const one = plain(axles.front.claM2.statement).u
    expect(axles.front.birge).toBeGreaterThan(3)
    expect(plain(total.claM2.statement).u).toBeCloseTo(2 * one, 12)
  })

  it('runs that disagree widen the interval, and it is said', () => {
    const runs = [0.6, 1.2, 0.9].map((value, i) => made({
      id: `run-${i}`, pressurePa: pressure(10), front: load(value, 0.05, `f${i}`), rear: load(1, 0.05, `r${i}`),
    }))
    const aero = aeroOf(runs)
    expect(aero.axles.front.birge).toBeGreaterThan(3)
    expect(codes(aero)).toContain('runsScatter')
    expect(plain(aero.axles.front.claM2.statement).u * 60).toBeCloseTo(0.05 / Math.sqrt(3) * aero.axles.front.birge, 9)
    expect(plain(aero.axles.front.claM2.statement).dof).toBeLessThan(3)
  })

  it('one touched run among plain ones takes no part; touched runs alone only bound', () => {
    const touchedRun = made({ id: 'down', pressurePa: pressure(30), front: atLeast(3, 0.1, 'b'), rear: atLeast(5, 0.1, 'c') })
    const mixed = aeroOf([...steady([10, 20]), touchedRun])
    expect(plain(mixed.axles.front.claM2.statement).value).toBeCloseTo(0.01, 12)
    expect(mixed.axles.front.points[2]!.weight).toBe(0)

    const alone = aeroOf([touchedRun])
    for (const statement of [alone.axles.front.claM2.statement, alone.total.claM2.statement]) expect(statement.kind).toBe('atLeast')
    expect(alone.balance.frontShare.kind).toBe('untold')
    expect(alone.axles.front.exponent.verdict).toBe('untold')
  })

  it('of several touched runs the slowest bounds best', () => {
    const down = (speed: number, id: string) => made({
      id, pressurePa: pressure(speed), front: atLeast(3, 0, id), rear: atLeast(5, 0, id),
    })
    const { statement } = aeroOf([down(30, 'a'), down(25, 'b'), down(40, 'c')]).axles.front.claM2
    expect(statement).toMatchObject({ kind: 'atLeast', reason: 'touchedGround' })
    expect(statement.kind === 'atLeast' && statement.bound).toBeCloseTo(3 / 375, 12)
  })

  it('passes without a control run and blower runs with one are kept apart', () => {
    const passes = made({
      id: 'pass', pressurePa: pressure(15), front: load(2, 0.1, 'p'), rear: load(3, 0.1, 'q'), measured: 'asRead',
    })
    const aero = aeroOf([...steady([10, 20]), passes])
    expect(aero.measure).toBe('lessControl')
    expect(aero.runIds).not.toContain('pass')
    expect(aero.other).toMatchObject({ measure: 'asRead', runIds: ['pass'] })
    expect(codes(aero)).toContain('twoMeasures')
  })
})

describe('exponent of the speed', () => {
  const power = (n: number, u = 0.01) => [10, 15, 20].map((speed, i) => made({
    id: `run-${i}`, pressurePa: pressure(speed, 0.02), front: load(0.02 * speed ** n, u, `f${i}`), rear: load(1, 0.01, `r${i}`),
  }))

  it.each([[2, 'agrees'], [2.4, 'above'], [1.6, 'below']] as const)('%d: %s', (n, verdict) => {
    const { exponent } = aeroOf(power(n)).axles.front
    expect(exponent.verdict).toBe(verdict)
    expect(plain(exponent.exponent).value).toBeCloseTo(n, 6)
  })

  it('the anemometer\'s factor has no part in it', () => {
    const budget = plain(aeroOf(power(2)).axles.front.exponent.exponent).u
    expect(budget).toBeLessThan(0.02)
  })

  it('one speed tells none', () => {
    expect(aeroOf(steady([10, 10.5])).axles.front.exponent.verdict).toBe('untold')
  })
})

describe('ride-height dependence', () => {
  it('is found from runs at several set-up heights', () => {
    const runs = [0, 1, 2].map((staticDropMm) => {
      const cla = 0.01 + 0.002 * (staticDropMm + 1)
      return made({
        id: `h-${staticDropMm}`, pressurePa: pressure(15), staticDropMm, front: load(cla * 135, 0.02, `f${staticDropMm}`),
        rear: load(2, 0.02, `r${staticDropMm}`),
      })
    })
    const { height } = aeroOf(runs).axles.front
    expect(height!.slopeM2PerMm.value).toBeCloseTo(0.002, 9)
    expect(height!.claM2.value).toBeCloseTo(0.014, 9)
    expect(standardUncertainty(height!.slopeM2PerMm)).toBeCloseTo(0.02 / 135 / Math.SQRT2, 9)
    expect(aeroOf(steady([10, 20])).axles.front.height).toBeNull()
  })
})

describe('balance', () => {
  it('front share, centre of pressure and shift against the car at rest', () => {
    const { balance } = aeroOf(steady([10, 20]))
    expect(plain(balance.frontShare).value).toBeCloseTo(1 / 3, 9)
    expect(plain(balance.centreMm).value).toBeCloseTo((260 * 2) / 3, 6)
    expect(plain(balance.staticFrontShare).value).toBeCloseTo(0.5, 9)
    expect(plain(balance.shift).value).toBeCloseTo(1 / 3 - 1 / 2, 9)
    expect(plain(balance.frontShare).method).toBe('fieller')
  })

  it('what all loads share has no part in the share', () => {
    const sharp = steady([10, 20]).map((run) => run)
    const wide = aeroOf(sharp).balance.frontShare
    // Own errors only: share's u from 0.05 N on each axle.
    const q = 60 * 60 + 240 * 240
    const own = Math.sqrt((0.05 / Math.sqrt(q)) ** 2 * ((2 / 3) ** 2 + (1 / 3) ** 2)) / 0.03
    expect(plain(wide).u).toBeCloseTo(own, 6)
  })

  it('can\'t be told where the load in all may be nothing', () => {
    const run = made({ id: 'run', pressurePa: pressure(10), front: load(1, 0.2, 'f'), rear: load(-0.9, 0.2, 'r') })
    expect(aeroOf([run]).balance.frontShare).toMatchObject({ kind: 'untold', reason: 'denominatorNearZero' })
  })

  it('one axle "at least" and the other plain makes the share "at least"', () => {
    const run = made({ id: 'run', pressurePa: pressure(10), front: atLeast(2, 0.01, 'f'), rear: load(2, 0.01, 'r') })
    expect(aeroOf([run]).balance.frontShare).toMatchObject({ kind: 'atLeast' })
  })
})

describe('comparison', () => {
  const both = [...steady([10, 20], 'a-', 1.1), ...steady([10, 20], 'b-', 1, 'skirts')]
  const [a, b] = [aeroOf(both), aeroOf(both, 'skirts')]

  it('what both share cancels', () => {
    const { differenceM2, probabilityLarger } = compare(a, b).total
    const { value, u } = plain(differenceM2.statement)
    expect(value).toBeCloseTo(0.003, 12)
    // Shared 2 % of 0.003, and the own errors of four axle fits.
    const own = 0.05 / 240 * Math.sqrt(16 / 17)
    expect(u).toBeCloseTo(Math.hypot(0.02 * 0.003, 2 * own), 8)
    expect(probabilityLarger).toMatchObject({ kind: 'is' })
  })

  it('is mirrored when the two change places', () => {
    const [one, other] = [compare(a, b), compare(b, a)]
    const valueOf = ({ total }: typeof one) => plain(total.differenceM2.statement).value
    expect(valueOf(other)).toBeCloseTo(-valueOf(one), 15)
    expect(other.total.probabilityLarger.value).toBeCloseTo(1 - one.total.probabilityLarger.value, 12)
    expect(other.total.pValue).toBeCloseTo(one.total.pValue!, 12)
  })

  it('a touched configuration against a plain one: at least, and the probability a bound', () => {
    const down = aeroOf([made({
      id: 'down', configurationId: 'skirts', pressurePa: pressure(20), front: atLeast(4, 0.05, 'x'), rear: atLeast(6, 0.05, 'y'),
    })], 'skirts')
    const upper = compare(down, a).total
    expect(upper.differenceM2.statement.kind).toBe('atLeast')
    expect(upper.probabilityLarger.kind).toBe('atLeast')
    const lower = compare(a, down).total
    expect(lower.differenceM2.statement.kind).toBe('atMost')
    expect(lower.probabilityLarger.kind).toBe('atMost')
    const small = aeroOf([made({
      id: 'small', configurationId: 'skirts', pressurePa: pressure(20), front: atLeast(1, 0.05, 'x'), rear: atLeast(1, 0.05, 'y'),
    })], 'skirts')
    expect(compare(small, a).total.probabilityLarger.kind).toBe('untold')
    expect(compare(small, down).total.differenceM2.statement.kind).toBe('untold')
  })

  it('where one has no control run both are compared as read', () => {
    const passes = aeroOf([made({
      id: 'pass', configurationId: 'skirts', pressurePa: pressure(15), front: load(2, 0.1, 'p'), rear: load(3, 0.1, 'q'),
      measured: 'asRead',
    })], 'skirts')
    expect(compare(a, passes)).toMatchObject({ measure: 'asRead' })
  })

  it('repeats: the wished difference is met by the factor it says', () => {
    const named = (what: string, scale: number) => [10, 20].map((speed, i) => {
      const q = pressure(speed, 0.02)
      return made({
        id: `${what}-${i}`, configurationId: what, pressurePa: q, front: readAnew(0.01 * scale * q.value, 0.1, `${what}${i}:f`),
        rear: readAnew(0.02 * scale * q.value, 0.1, `${what}${i}:r`),
      })
    })
    const runs = [...named('plain', 1.05), ...named('skirts', 1)]
    const comparison = compare(aeroOf(runs), aeroOf(runs, 'skirts'))
    const wished = 0.5 * comparison.smallestDetectableM2!
    const needed = repeatsNeeded(comparison, wished)
    if (needed.kind !== 'times') throw new Error(needed.kind)
    const u = Math.hypot(comparison.shrinksM2! / Math.sqrt(needed.factor), comparison.staysM2!)
    expect((1.959964 + 0.841621) * u).toBeCloseTo(wished, 8)
    expect(repeatsNeeded(comparison, 1e-9).kind).toBe('outOfReach')
  })
})

describe('matrix', () => {
  it('ranks, corrects by Holm and names the ties', () => {
    const runs = [
      ...steady([10, 20], 'a-', 1.5, 'a'), ...steady([10, 20], 'b-', 1.01, 'b'), ...steady([10, 20], 'c-', 1, 'c'),
    ]
    const matrix = comparisonMatrix(['c', 'a', 'b'].map((id) => aeroOf(runs, id)))
    expect(matrix.ranked.map(({ configurationId }) => configurationId)).toEqual(['a', 'b', 'c'])
    expect(matrix.ranked[0]!.tiedWith).toEqual([])
    expect(matrix.ranked[1]!.tiedWith).toEqual(['c'])
    expect(matrix.pairCount).toBe(3)
    expect(matrix.cells.every(({ holmP, comparison }) => holmP! >= comparison.total.pValue!)).toBe(true)
    expect(matrix.remarks.map(({ code }) => code)).toContain('holmApplied')
  })

  it('a single configuration has no pairs', () => {
    const matrix = comparisonMatrix([aeroOf(steady([10, 20]))])
    expect(matrix.cells).toEqual([])
    expect(matrix.ranked).toHaveLength(1)
  })

  it('Holm: steps down, never falls, never exceeds one', () => {
    expect(holm([0.01, 0.04, 0.03, 0.005])).toEqual([0.03, 0.06, 0.06, 0.02])
    expect(holm([0.9, 0.8])).toEqual([1, 1])
    expect(holm([])).toEqual([])
  })
})

describe('room under the tray', () => {
  const room = (mm: number, uMm: number) => statementOf(aboveGround(load(mm, uMm, 'room')))

  it('is a plain number while its whole interval is above the ground', () => {
    expect(room(1, 0.5)).toMatchObject({ kind: 'interval', value: 1 })
  })

  // Normal distribution: one-sided 95 % ends 1.645 u above the value.
  it('is never told as below the ground: where its interval reaches it, as between the ground and its upper end', () => {
    const said = room(0.5, 0.5)
    expect(said).toMatchObject({ kind: 'between', low: 0, reason: 'mayTouch' })
    expect(said.kind === 'between' && said.high).toBeCloseTo(0.5 + 1.645 * 0.5, 2)
  })
})

/**
 * Distribution functions against figures computed in 40 digits by a general-purpose library
 * (`library_figures.py` beside this file writes them), and against the printed t table.
 */
import {
  chiSquareUpper, fUpper, normalCdf, normalQuantile, normalUpper, studentCdf, studentDensity, studentQuantile,
  studentUpper,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import figures from './library-figures.json'

function near(value: number, figure: number, relative: number, what: string) {
  expect(Math.abs(value - figure), `${what}: ${value} against ${figure}`).toBeLessThanOrEqual(relative * Math.abs(figure))
}

describe('tails and quantiles to double accuracy', () => {
  it('normal', () => {
    for (const [x, p] of figures.normalUpper as [number, number][]) near(normalUpper(x), p, 5e-14, `normal ${x}`)
    for (const [q, x] of figures.normalTail as [number, number][]) {
      near(-normalQuantile(q), x, 2e-14, `normal quantile ${q}`)
      near(normalCdf(-x), q, 1e-13, `normal at its quantile ${q}`)
    }
  })

  it('chi-square', () => {
    for (const [x, dof, p] of figures.chiSquareUpper as [number, number, number][]) {
      near(chiSquareUpper(x, dof), p, 1e-12, `chi-square ${x} of ${dof}`)
    }
    for (const [q, dof, x] of figures.chiSquareTail as [number, number, number][]) {
      near(chiSquareUpper(x, dof), q, 1e-11, `chi-square at its quantile ${q} of ${dof}`)
    }
  })

  it('Student t', () => {
    for (const [t, dof, p] of figures.studentUpper as [number, number, number][]) {
      near(studentUpper(t, dof), p, 1e-12, `t ${t} of ${dof}`)
    }
    for (const [q, dof, t] of figures.studentTail as [number, number, number][]) {
      near(-studentQuantile(q, dof), t, 1e-12, `t quantile ${q} of ${dof}`)
      near(studentCdf(-t, dof), q, 1e-11, `t at its quantile ${q} of ${dof}`)
    }
  })

  it('F', () => {
    for (const [f, a, b, p] of figures.fUpper as [number, number, number, number][]) {
      near(fUpper(f, a, b), p, 1e-12, `F ${f} of ${a}, ${b}`)
    }
    for (const [q, a, b, f] of figures.fTail as [number, number, number, number][]) {
      near(fUpper(f, a, b), q, 1e-11, `F at its quantile ${q} of ${a}, ${b}`)
    }
  })
})

describe('Student t as printed in any table, two-sided 95 %', () => {
  it.each([[1, 12.706], [2, 4.303], [5, 2.571], [10, 2.228], [30, 2.042]])('%d degrees of freedom: %d', (dof, t) => {
    expect(studentQuantile(0.975, dof)).toBeCloseTo(t, 3)
  })
})

describe('the density of t is the slope of its distribution', () => {
  const slope = (cdf: (x: number) => number, x: number) => (cdf(x + 1e-5) - cdf(x - 1e-5)) / 2e-5
  it.each([0.4, 1, 3.7])('at %d', (x) => {
    near(studentDensity(x, 4.5), slope((at) => studentCdf(at, 4.5), x), 1e-8, 't')
  })
})

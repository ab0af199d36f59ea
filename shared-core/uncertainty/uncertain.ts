/**
 * An uncertain value: an estimate and its first-order dependence on independent sources. Carrying
 * the dependence, not only a standard uncertainty, is what keeps shared errors shared through every
 * later formula (law of propagation, JCGM 100:2008, 5.1.2 and 5.2.2).
 */
import { known, type Lifetime, type Source, type SourceGroup } from './source'

export interface Part {
  readonly source: Source
  /** Sensitivity times the source's standard uncertainty, signed, in the value's own unit. */
  readonly contribution: number
}

export interface Uncertain {
  readonly value: number
  /** Each source at most once. */
  readonly parts: readonly Part[]
}

/** An exactly known value. */
export const exact = (value: number): Uncertain => ({ value, parts: [] })

/** A value with one source of its own. `u`: standard uncertainty in the value's unit, zero or more. */
export const fromSource = (value: number, u: number, source: Source): Uncertain =>
  u === 0 ? exact(value) : { value, parts: [{ source, contribution: u }] }

/** A value entered with its standard uncertainty. */
export const entered = ({ value, u }: { value: number; u: number }, ...of: Parameters<typeof known>): Uncertain =>
  fromSource(value, u, known(...of))

/** The parts of a value for which `keep` holds, about zero: an error of its own. */
export const partsOf = (a: Uncertain, keep: (source: Source) => boolean): Uncertain =>
  ({ value: 0, parts: a.parts.filter(({ source }) => keep(source)) })

/** The error that lives as told, about zero. */
export const errorOf = (a: Uncertain, ...lifetimes: readonly Lifetime[]): Uncertain =>
  partsOf(a, ({ lifetime }) => lifetimes.includes(lifetime))

/**
 * First-order combination: the value as given, and for each input its partial derivative.
 *
 * @param value the function's value at the estimates
 * @param terms each input with the function's partial derivative by it at the estimates
 */
export function combine(value: number, terms: readonly (readonly [Uncertain, number])[]): Uncertain {
  const bySource = new Map<string, { source: Source; contribution: number }>()
  for (const [input, sensitivity] of terms) {
    if (sensitivity === 0) continue
    for (const { source, contribution } of input.parts) {
      const held = bySource.get(source.id)
      if (held) held.contribution += sensitivity * contribution
      else bySource.set(source.id, { source, contribution: sensitivity * contribution })
    }
  }
  return { value, parts: [...bySource.values()] }
}

export const plus = (a: Uncertain, b: Uncertain): Uncertain => combine(a.value + b.value, [[a, 1], [b, 1]])
export const minus = (a: Uncertain, b: Uncertain): Uncertain => combine(a.value - b.value, [[a, 1], [b, -1]])
export const times = (a: Uncertain, b: Uncertain): Uncertain =>
  combine(a.value * b.value, [[a, b.value], [b, a.value]])
/** `b.value` must not be zero. Use Fieller's interval where zero is within reach of `b`. */
export const over = (a: Uncertain, b: Uncertain): Uncertain =>
  combine(a.value / b.value, [[a, 1 / b.value], [b, -a.value / b.value ** 2]])
export const scaled = (a: Uncertain, factor: number): Uncertain => combine(a.value * factor, [[a, factor]])

/** Sum of any number of values. */
export const sum = (values: readonly Uncertain[]): Uncertain =>
  combine(values.reduce((total, each) => total + each.value, 0), values.map((each) => [each, 1] as const))

/** Mean of one or more values. */
export const mean = (values: readonly Uncertain[]): Uncertain => scaled(sum(values), 1 / values.length)

/** Variance, in the square of the value's unit. */
export const variance = (a: Uncertain): number =>
  a.parts.reduce((total, { contribution }) => total + contribution * contribution, 0)

/** Standard uncertainty, in the value's unit. */
export const standardUncertainty = (a: Uncertain): number => Math.sqrt(variance(a))

/** Covariance of two values through the sources they share. */
export function covariance(a: Uncertain, b: Uncertain): number {
  const ofB = new Map(b.parts.map(({ source, contribution }) => [source.id, contribution]))
  return a.parts.reduce((total, { source, contribution }) => total + contribution * (ofB.get(source.id) ?? 0), 0)
}

/** Of each of some values the error that none of the others shares, about zero. */
export function unshared(values: readonly Uncertain[]): Uncertain[] {
  const count = new Map<string, number>()
  for (const { parts } of values) for (const { source } of parts) count.set(source.id, (count.get(source.id) ?? 0) + 1)
  return values.map((each) => partsOf(each, ({ id }) => count.get(id) === 1))
}

/**
 * Effective degrees of freedom by Welch-Satterthwaite (JCGM 100:2008, G.4.1, eq. G.2b).
 * Sources with infinite degrees of freedom add nothing to the denominator; sources of one pool are
 * one estimated variance.
 */
export function effectiveDof(a: Uncertain): number {
  const total = variance(a)
  if (total === 0) return Infinity
  const pools = new Map<string, { square: number; dof: number }>()
  for (const { source: { id, pool, dof }, contribution } of a.parts) {
    if (!Number.isFinite(dof)) continue
    const key = pool ?? id
    const held = pools.get(key)
    if (held) held.square += contribution ** 2
    else pools.set(key, { square: contribution ** 2, dof })
  }
  const denominator = [...pools.values()].reduce((sum, { square, dof }) => sum + square ** 2 / dof, 0)
  return denominator === 0 ? Infinity : total ** 2 / denominator
}

/** One row of a budget: a group's share of the variance. Shares add to 1 unless there is no uncertainty. */
export interface BudgetRow {
  readonly group: SourceGroup
  /** Root of the group's summed squares, in the value's unit. */
  readonly u: number
  readonly share: number
}

/** The budget by group, largest first. The squares of `u` add up to the variance. */
export function budget(a: Uncertain): BudgetRow[] {
  const total = variance(a)
  const squares = new Map<SourceGroup, number>()
  for (const { source, contribution } of a.parts) {
    squares.set(source.group, (squares.get(source.group) ?? 0) + contribution ** 2)
  }
  return [...squares]
    .map(([group, square]) => ({ group, u: Math.sqrt(square), share: total === 0 ? 0 : square / total }))
    .sort((one, other) => other.u - one.u)
}

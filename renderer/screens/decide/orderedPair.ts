/**
 * A pair in the order in which it was asked for. Each pair is compared once, in the order of the
 * ladder; asked for the other way round, everything said of it turns here and nowhere else.
 */
import type { ComparisonMatrix, Difference, MatrixCell, Probability } from '@core/aero'
import type { Axle } from '@core/schema'
import type { CoverageInterval, Statement } from '@core/uncertainty'

/** What is said of a quantity of the first less that of the second. */
export interface OrderedDifference {
  readonly statement: Statement
  /** Probability that the first's is larger. */
  readonly probabilityLarger: Probability
}

/** A pair, first less second; `cell` is as the core made it, for what has no direction. */
export interface OrderedPair {
  readonly first: string
  readonly second: string
  readonly total: OrderedDifference
  readonly axles: Readonly<Record<Axle, OrderedDifference>>
  readonly balanceMove: Statement
  readonly cell: MatrixCell
}

/** Minus a value, and never a minus nought. */
const minus = (value: number): number => (value === 0 ? 0 : -value)
const turnedInterval = ({ low, high, probability }: CoverageInterval): CoverageInterval =>
  ({ low: minus(high), high: minus(low), probability })

/** What may be said of B less A where this is said of A less B. */
export function turnedStatement(said: Statement): Statement {
  switch (said.kind) {
    case 'interval': return {
      ...said, value: minus(said.value), interval: turnedInterval(said.interval),
      shortest: said.shortest && turnedInterval(said.shortest),
    }
    case 'atLeast': return { ...said, kind: 'atMost', bound: minus(said.bound) }
    case 'atMost': return { ...said, kind: 'atLeast', bound: minus(said.bound) }
    case 'between': return { ...said, low: minus(said.high), high: minus(said.low) }
    case 'untold': return said
  }
}

/** Probability that B's is larger where this is that of A's. */
export function turnedProbability({ kind, value }: Probability): Probability {
  switch (kind) {
    case 'is': return { kind, value: 1 - value }
    case 'atLeast': return { kind: 'atMost', value: 1 - value }
    case 'atMost': return { kind: 'atLeast', value: 1 - value }
    case 'untold': return { kind, value }
  }
}

/** The pair as first less second; null where the two were not compared. */
export function orderedPair({ cells }: ComparisonMatrix, first: string, second: string): OrderedPair | null {
  const cell = cells.find(({ comparison: { configurationA: a, configurationB: b } }) =>
    (a === first && b === second) || (a === second && b === first))
  if (!cell) return null
  const { comparison } = cell
  const turned = comparison.configurationA !== first
  const statement = (said: Statement): Statement => (turned ? turnedStatement(said) : said)
  const difference = ({ differenceM2, probabilityLarger }: Difference): OrderedDifference => ({
    statement: statement(differenceM2.statement),
    probabilityLarger: turned ? turnedProbability(probabilityLarger) : probabilityLarger,
  })
  return {
    first, second, cell, total: difference(comparison.total), balanceMove: statement(comparison.balanceMove),
    axles: { front: difference(comparison.axles.front), rear: difference(comparison.axles.rear) },
  }
}

/**
 * Every statement anywhere in a result, with where it stands, and what no statement may ever be.
 * Knows the kinds of statements and nothing of the analysis that makes them.
 */
import type { Statement } from '@core/uncertainty'

export interface PlacedStatement { readonly where: string; readonly statement: Statement }

const KINDS = new Set(['interval', 'atLeast', 'atMost', 'between', 'untold'])

/** A statement has the numbers of its kind as plain numbers; a claim of the same kind has uncertain values. */
function isStatement(value: Record<string, unknown>): boolean {
  if (typeof value.kind !== 'string' || !KINDS.has(value.kind)) return false
  if (value.kind === 'interval') return 'interval' in value
  return value.kind !== 'untold' && typeof value.probability === 'number'
}

/** All statements in a result, however deep. */
export function statementsIn(value: unknown, where = ''): PlacedStatement[] {
  if (Array.isArray(value)) return value.flatMap((each, i) => statementsIn(each, `${where}[${i}]`))
  if (value === null || typeof value !== 'object' || ArrayBuffer.isView(value)) return []
  const record = value as Record<string, unknown>
  if (isStatement(record)) return [{ where, statement: record as unknown as Statement }]
  return Object.entries(record).flatMap(([key, each]) => statementsIn(each, where === '' ? key : `${where}.${key}`))
}

const finite = (...values: readonly number[]): boolean => values.every(Number.isFinite)

/** What is wrong with a statement in itself; null where nothing is. */
export function faultOf(statement: Statement): string | null {
  switch (statement.kind) {
    case 'untold': return null
    case 'atLeast': case 'atMost': return finite(statement.bound) ? null : `its bound is ${statement.bound}`
    case 'between': {
      const { low, high } = statement
      if (!finite(low, high)) return `an end is not finite: ${low} to ${high}`
      return low <= high ? null : `its ends are the wrong way round: ${low} to ${high}`
    }
    case 'interval': return faultOfInterval(statement)
  }
}

function faultOfInterval(statement: Extract<Statement, { kind: 'interval' }>): string | null {
  const { value, u, dof, method, interval: { low, high } } = statement
  if (!finite(value, u, low, high)) return `a figure is not finite: ${value}, u ${u}, ${low} to ${high}`
  if (!(dof > 0)) return `degrees of freedom of ${dof}`
  const slack = 1e-12 * Math.max(Math.abs(low), Math.abs(high), Math.abs(value))
  if (!(low <= value + slack && value <= high + slack)) return `${value} is not within ${low} to ${high}`
  if (method === 'exact' ? u !== 0 : !(u > 0)) return `u of ${u} by ${method}`
  if (method !== 'exact' && !(high > low)) return `no width at ${value}`
  return u > high - low + slack ? `u of ${u} is more than the whole interval of ${high - low}` : null
}

/** A remark a builder can act on: what, where, how far off. The words are made from it in each language. */
import type { Axle, Corner, Reading } from '@core/schema'
import { REMARKS, U_OF, type RemarkCode, type Severity, type ValueKind } from './codes'

/** What a remark is about, by id; a `step` is a squat test's step or a run's state. */
export type About =
  | { readonly kind: 'step'; readonly stepId: string }
  | { readonly kind: 'corner'; readonly corner: Corner }
  /** A reading as it stood after so many corrections. */
  | {
      readonly kind: 'reading'
      readonly readingId: string
      readonly corrections: number
      readonly stepId: string
      readonly corner: Corner
    }
  | { readonly kind: 'run'; readonly runId: string }

type ValueOf<K extends ValueKind> = K extends 'axle' ? Axle : K extends 'text' | 'shape' ? string : number
type SpecOf<C extends RemarkCode> = (typeof REMARKS)[C]['values']

/** The values that a code's sentence may need. */
export type ValuesOf<C extends RemarkCode> = {
  readonly [K in keyof SpecOf<C>]: SpecOf<C>[K] extends ValueKind ? ValueOf<SpecOf<C>[K]> : never
}

interface RemarkOf<C extends RemarkCode> {
  readonly code: C
  readonly severity: Severity
  /** Null where it is about all that it stands with. */
  readonly about: About | null
  readonly values: ValuesOf<C>
}

export type Remark = { readonly [C in RemarkCode]: RemarkOf<C> }[RemarkCode]

type Asked<C extends RemarkCode> =
  keyof SpecOf<C> extends never ? [values?: null, about?: About] : [values: ValuesOf<C>, about?: About]

/** The one maker of remarks: the code, the values it asks for, and what it is about. */
export function remark<C extends RemarkCode>(code: C, ...[values, about]: Asked<C>): Remark {
  return { code, severity: REMARKS[code].severity, about: about ?? null, values: values ?? {} } as Remark
}

/** A reading as what a remark is about. */
export const aboutReading = ({ id, corrections, stepId, corner }: Reading): About & { readonly kind: 'reading' } =>
  ({ kind: 'reading', readingId: id, corrections: corrections.length, stepId, corner })

/** What each value of a remark is, for the figure it becomes in a sentence. */
export function valuesOf({ code, values }: Remark): RemarkValue[] {
  const held = values as Readonly<Record<string, string | number>>
  return Object.entries<ValueKind>(REMARKS[code].values).map(([name, kind]) => {
    const u = held[U_OF[name] ?? '']
    return { name, kind, value: held[name]!, u: typeof u === 'number' && u > 0 ? u : null }
  })
}

interface RemarkValue {
  readonly name: string
  readonly kind: ValueKind
  readonly value: string | number
  /** Its standard uncertainty, which ends it, where the remark tells one. */
  readonly u: number | null
}

const RANK = { stop: 0, warning: 1, note: 2 } as const

/** The gravest first, else in their order. */
export const byGravity = (remarks: readonly Remark[]): Remark[] =>
  [...remarks].sort((a, b) => RANK[a.severity] - RANK[b.severity])

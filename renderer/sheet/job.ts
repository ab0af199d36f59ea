/** What a screen does with a table that is pasted or dropped on it. */
import type { SheetField, SheetKind, SheetMap, SheetRows, Taken } from '@core/sheet'
import type { Count } from './takeSquat'

/** One way to take a table, where it was pasted. */
export interface SheetJob<T = unknown> {
  /** What the columns hold where there is no head; shorter than the table where nobody can tell. */
  order(width: number): readonly SheetField[]
  read(rows: SheetRows, map: SheetMap): Taken<T>
  /** Takes it in, as one step that can be taken back. */
  take(made: T): Count
}

/** The tables that a screen takes. */
export interface SheetDesk {
  /** Kinds that are looked for in the heads, the most likely one first. */
  readonly kinds: readonly SheetKind[]
  /** What a table without heads is about where it was pasted. */
  kindAt(target: Element | null): SheetKind
  jobFor(kind: SheetKind, target: Element | null): SheetJob
}

/** A table that waits to be looked at before it is taken in. */
export interface PendingSheet {
  readonly kind: SheetKind
  readonly rows: SheetRows
  readonly map: SheetMap
  readonly target: Element | null
}

export const asJob = <T>(job: SheetJob<T>): SheetJob => job as SheetJob

import type { Preferences } from '@core/services'
import type { UnitKind } from '@core/units'

/** A name for every preference and for every value that it can have. */
export type PreferenceWords = { readonly label: Record<keyof Preferences, string> } & {
  readonly [K in keyof Preferences]: Record<Preferences[K], string>
}

/** A short name for every kind of unit. */
export type UnitKindWords = Record<UnitKind, string>

/** Words of another language for the same keys: a misspelt key is a type error, and so is a missing one. */
export type Words<T> = T extends string ? string : { readonly [K in keyof T]: Words<T[K]> }

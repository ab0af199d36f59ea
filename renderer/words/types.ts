/** Words of another language for the same keys: a misspelt key is a type error, and so is a missing one. */
export type Words<T> = T extends string ? string : { readonly [K in keyof T]: Words<T[K]> }

/** Words of another language for the same keys; a misspelt key is a type error, for a missing one English stands. */
export type Words<T> = T extends string ? string : { readonly [K in keyof T]?: Words<T[K]> }

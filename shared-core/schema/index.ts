/** The face of the documents: what is stored, sent and exchanged. */
export * from './scalars'
export * from './chassis'
export * from './reading'
export * from './picture'
export * from './session'
export * from './exchange'
export * from './problems'
export * from './migrate'

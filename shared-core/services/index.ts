/** The face of the service table. */
export * from './contract'
export * from './channel'

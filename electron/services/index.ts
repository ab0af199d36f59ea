/** The face of what stands behind the service table. */
export { createDispatch } from './dispatch'
export type { Dispatch } from './dispatch'
export { patient, systemDisk, writeWhole } from './disk'
export { ServiceFailure } from './failure'
export { ProfileLibrary } from './library'
export { LIBRARY_VARIABLE, libraryFolder } from './libraryFolder'
export { createTable } from './table'
export type { ServiceTable } from './table'

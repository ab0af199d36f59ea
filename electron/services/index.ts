/** The face of what stands behind the service table. */
export { createDispatch } from './dispatch'
export type { Dispatch } from './dispatch'
export { ProfileLibrary } from './library'
export { LIBRARY_VARIABLE, libraryFolder } from './libraryFolder'
export { createTable } from './table'

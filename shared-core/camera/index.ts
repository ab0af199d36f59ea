/** The face of the camera room: from pixels and marks to heights, drops, traces and speeds. */
export * from './raster'
export * from './snap'
export * from './plane'
export * from './height'
export * from './film'
export * from './files'

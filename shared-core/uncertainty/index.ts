/** The face of the uncertainty room. */
export * from './source'
export * from './uncertain'
export * from './statement'
export * from './distributions'
export * from './interval'
export * from './fieller'
export * from './welch'
export * from './monteCarlo'

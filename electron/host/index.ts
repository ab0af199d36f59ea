/** The face of the loopback host. */
export { startHost } from './host'
export { startAtUsualPort, USUAL_PORT } from './usualPort'
export type { Host, HostOptions } from './host'

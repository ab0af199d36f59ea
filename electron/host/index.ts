/** The face of the loopback host. */
export { startHost } from './host'
export type { Host, HostOptions } from './host'

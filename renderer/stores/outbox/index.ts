/** The face of what the browser keeps until it is written down. */
export { Outbox } from './outbox'
export { takeIn } from './takeIn'

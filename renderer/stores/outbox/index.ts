/** The face of what the browser keeps until it is written down. */
export { Outbox, type Kept } from './outbox'
export { takeIn } from './takeIn'

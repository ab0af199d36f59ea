/** The quantity that a value's name ends in, so that a remark's figures show in the builder's units. */
export { quantityOfValue as quantityOfKey } from '@core/report/words'

/** No text and no key leaves its box, in English. */
import { sweepBoxes } from './boxes'

sweepBoxes('en')

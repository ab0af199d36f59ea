/** No text and no key leaves its box, in German. */
import { sweepBoxes } from './boxes'

sweepBoxes('de')

/**
 * How rarely chance makes as much before something is done or said about it. One list, so that no two
 * rooms call the same evidence clear and unclear. What a false alarm costs decides how rare it may be
 * (the levels themselves are common practice, no source). Probabilities of chance are two-sided.
 */

/** Scatter enlarges an interval: a false alarm makes it a little wider, a miss makes it too narrow. */
export const ENLARGES = 0.05

/** A difference is told apart from none, over all pairs together: the complement of the 95 % of every interval. */
export const TELLS_APART = 0.05

/** Another way is taken (zeros followed, a run by its own scatter), or the builder is asked to look at something. */
export const CALLS_FOR_ACTION = 0.01

/**
 * A warning of one kind, over all axles, set-ups and runs that it is asked of together: all kinds of a
 * faultless project then stay below one in twenty.
 */
export const WARNS = 0.005

/** Any step of a faultless session is called twisted: asked at every step, and the answer sends back to the car. */
export const TWIST_CHANCE = 0.005

/** Beyond this many standard uncertainties chance alone is not believed (1 in 1000): asked corner by corner. */
export const BEYOND_CHANCE = 3.29

/** Coverage factor of about 95 % (JCGM 100:2008, 6.3.3): clearly above zero, clearly moved. */
export const COVERAGE_FACTOR = 2

/** At this many standard uncertainties from zero a logarithm or a root is near enough to straight for first order. */
export const CLEAR_FOR_LOGARITHM = 3

/** The same for a divisor, which bends more. */
export const CLEAR_FOR_RATIO = 4

/** Ends this many standard uncertainties apart are in this order; nearer ones need trials to say it. */
export const FAR_APART = 4

/** A reading that nobody saw touch is plain only where it is short of the ground with this one-sided probability. */
export const CLEAR_OF_GROUND = 0.9999

/** Power of "detectable": such a difference is found in 8 of 10 cases. */
export const POWER = 0.8

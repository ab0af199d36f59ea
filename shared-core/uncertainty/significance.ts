/** How rarely chance makes as much before something is said or done about it: each level with its reason. */

/** Beyond this many standard uncertainties chance alone is not believed (two-sided, about 1 in 1000). */
export const BEYOND_CHANCE = 3.29

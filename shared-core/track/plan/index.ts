/** The face of the plan part: order and number of runs, pairs, and what moved beside the device. */
export { noncentralT, pairedPower } from './power'
export { drawnOrder, MOST_BLOCKS, planRuns, type PlanAnswer, type PlanQuestion } from './order'
export { bendCorrelation, bendFollows } from './bend'
export { planProgress, type PlanProgress, type PlanStep } from './progress'
export { pairedResult, type PairedResult } from './paired'
export { covariateFit, type Covariate, type CovariateFit } from './covariates'

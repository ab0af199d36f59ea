/**
 * Do the states of the runs scatter more than their readings say? How a car settles is a property of
 * the car and the day, so that is asked of all runs of a session together: one run's two or three
 * states tell next to nothing of it.
 */
import {
  beyond, CALLS_FOR_ACTION, effectiveDof, ENLARGES, exact, minus, ratioUpper, scaled, sum, unshared, WARNS, variance,
  type Uncertain,
} from '@core/uncertainty'

/** What the states of one run tell of their scatter on one axle. */
export interface StateScatter {
  /** Sum of squares about the mean, mm^2, and what the readings' own uncertainties make of it. */
  readonly square: number
  readonly expected: number
  readonly dof: number
  /** Degrees of freedom of `expected`: Infinity where the readings' errors are as good as known. */
  readonly expectedDof: number
}

/** Scatter of a session's states over what their readings say; `factor` 1 where it is not clearly more. */
export interface PooledScatter {
  readonly factor: number
  readonly dof: number
  /** How many runs' axles were asked. */
  readonly count: number
}

export const AS_READ: PooledScatter = { factor: 1, dof: 0, count: 0 }

/** Mean with weights that add to 1. */
const weightedMean = (values: readonly Uncertain[], weights: readonly number[]): Uncertain =>
  sum(values.map((each, i) => scaled(each, weights[i]!)))

/** Scatter of values that should be alike; what they share (a common zero, say) is accounted for. */
export function scatterOf(values: readonly Uncertain[], weights: readonly number[]): StateScatter {
  const mean = weightedMean(values, weights)
  const residuals = values.map((each) => minus(each, mean))
  const dofs = residuals.map(effectiveDof)
  return {
    square: residuals.reduce((total, { value }) => total + value ** 2, 0),
    expected: residuals.reduce((total, each) => total + variance(each), 0),
    dof: values.length - 1,
    expectedDof: Math.min(...dofs),
  }
}

/**
 * Pools the scatter of the runs of a session. A run glaringly wilder than the rest together (a
 * misread state, say) stays out: it stands for itself.
 */
export function pooledScatter(runs: readonly StateScatter[]): PooledScatter {
  const told = runs.filter(({ dof, expected }) => dof > 0 && expected > 0)
  const tame = told.filter((own, i) => {
    const rest = pooled(told.filter((_, j) => j !== i))
    const ratio = own.square / own.expected / rest.factor ** 2
    return rest.dof === 0 || ratioUpper(ratio, own.dof, own.expectedDof) >= CALLS_FOR_ACTION
  })
  return pooled(tame.length > 0 ? tame : told)
}

function pooled(told: readonly StateScatter[]): PooledScatter {
  const dof = told.reduce((total, each) => total + each.dof, 0)
  if (dof === 0) return AS_READ
  const ratio = told.reduce((total, each) => total + (each.dof * each.square) / each.expected, 0) / dof
  const expectedDof = Math.min(...told.map((each) => each.expectedDof))
  return { factor: ratioUpper(ratio, dof, expectedDof) < ENLARGES ? Math.sqrt(ratio) : 1, dof, count: told.length }
}

export interface StatesSurplus {
  /** What to add to the mean of the states for it: about zero. */
  readonly surplus: Uncertain
  /** This run's states scatter so much more than the session's that it has to be said: the factor, else 1. */
  readonly factor: number
}

/**
 * The session's surplus scatter as one more source of a run's weighted mean; a run that scatters glaringly
 * more than the session does is taken by its own scatter.
 *
 * @param name of the run
 * @param scope the session's id: surplus scatter of its runs rests on one estimate
 */
export function surplusOf(
  values: readonly Uncertain[], weights: readonly number[], { factor, dof, count }: PooledScatter, name: string,
  scope: string,
): StatesSurplus {
  const own = scatterOf(values, weights)
  const ratio = own.dof > 0 && own.expected > 0 ? own.square / own.expected : 0
  const byChance = own.dof > 0 ? ratioUpper(ratio / factor ** 2, own.dof, own.expectedDof) : 1
  const glaring = byChance < CALLS_FOR_ACTION
  const square = glaring ? ratio : factor ** 2
  if (!(square > 1)) return { surplus: exact(0), factor: 1 }
  const more = Math.sqrt(square - 1)
  const [freedom, pool] = glaring ? [own.dof + dof, name] : [dof, `scatter:${scope}`]
  const parts = weightedMean(unshared(values), weights).parts.map(({ source, contribution }) =>
    ({ source: beyond(source, 'stateScatter', freedom, pool), contribution: more * contribution }))
  const said = byChance < WARNS / Math.max(1, count)
  return { surplus: { value: 0, parts }, factor: said ? Math.sqrt(ratio) : 1 }
}

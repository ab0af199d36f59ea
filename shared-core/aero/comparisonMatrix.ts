/** All configurations against each other: the ladder and every pair. */
import { remark, type Remark } from '@core/remark'
import { lowEnd, lowerBound, TELLS_APART, type Claim } from '@core/uncertainty'
import { frontShareStatement } from './balance'
import { commonMeasure, compare, lawsIn } from './compare'
import { holm } from './holm'
import { inOrder } from './inOrder'
import type { ComparisonMatrix, ConfigurationAero, Laws, MatrixCell, Measure, RankedRow } from './types'

/** Where a claim stands in the ladder: by its value, else by what it surely reaches; null where that is not told. */
function standing(claim: Claim): number | null {
  if (claim.kind === 'value') return claim.value.value
  const low = lowEnd(claim)
  return low && lowerBound(low)
}

/** Ranks by total ClA, most downforce first, and compares every pair with Holm's correction. */
export function comparisonMatrix(aeros: readonly ConfigurationAero[]): ComparisonMatrix {
  const measure = commonMeasure(aeros)
  const lawsOf = (aero: ConfigurationAero): Laws => lawsIn(aero, measure)!
  const place = (aero: ConfigurationAero): number | null => standing(lawsOf(aero).total.claM2.claim)
  const sorted = inOrder(aeros, place)
  const pairs = sorted.flatMap((a, i) => sorted.slice(i + 1).map((b) => compare(a, b)))
  const told = pairs.filter(({ total }) => total.pValue !== null)
  const corrected = holm(told.map(({ total }) => total.pValue!))
  const cells = pairs.map((comparison): MatrixCell => {
    const at = told.indexOf(comparison)
    const holmP = at < 0 ? null : corrected[at]!
    return { comparison, holmP, distinct: holmP !== null && holmP < TELLS_APART }
  })
  const ranked = sorted.map((aero, i): RankedRow => {
    const { axles: { front, rear }, total } = lawsOf(aero)
    return {
      rank: i + 1, configurationId: aero.configurationId, totalClaM2: total.claM2,
      frontShare: frontShareStatement(front.claM2.claim, rear.claM2.claim),
      tiedWith: tiesOf(aero.configurationId, cells),
    }
  })
  return { measure, ranked, cells, pairCount: told.length, remarks: remarksOn(sorted, measure, told.length) }
}

const tiesOf = (id: string, cells: readonly MatrixCell[]): string[] =>
  cells.flatMap(({ distinct, comparison: { configurationA, configurationB } }) => {
    if (distinct || (configurationA !== id && configurationB !== id)) return []
    return [configurationA === id ? configurationB : configurationA]
  })

function remarksOn(sorted: readonly ConfigurationAero[], measure: Measure, pairs: number): Remark[] {
  const remarks: Remark[] = []
  if (pairs > 1) remarks.push(remark('holmApplied', { pairs }))
  const bounds = sorted.filter((each) => lawsIn(each, measure)!.total.claM2.claim.kind !== 'value').length
  if (bounds > 0) remarks.push(remark('rankedByBound', { configurations: bounds }))
  const without = sorted.filter((each) => lawsIn(each, 'lessControl') === null).length
  if (without > 0 && without < sorted.length) remarks.push(remark('comparedAsRead', { configurations: without }))
  return remarks
}

/** All configurations against each other: the ladder and every pair. */
import type { Remark } from '@core/calibration'
import { highEnd, lowEnd, type Claim } from '@core/uncertainty'
import { compare } from './compare'
import { aeroRemark } from './configuration'
import { holm } from './holm'
import type { ComparisonMatrix, ConfigurationAero, MatrixCell, RankedRow } from './types'

const LEVEL = 0.05

/** Where a claim stands in the ladder: by its value, else by what bound it has; nothing at the end. */
function standing(claim: Claim): number {
  const ends = [lowEnd(claim), highEnd(claim)].flatMap((end) => (end ? [end.value] : []))
  return ends.length === 0 ? -Infinity : ends.reduce((sum, each) => sum + each, 0) / ends.length
}

/** Ranks by total ClA, most downforce first, and compares every pair with Holm's correction. */
export function comparisonMatrix(aeros: readonly ConfigurationAero[]): ComparisonMatrix {
  const sorted = [...aeros].sort((a, b) => standing(b.total.claM2.claim) - standing(a.total.claM2.claim))
  const pairs = sorted.flatMap((a, i) => sorted.slice(i + 1).map((b) => compare(a, b)))
  const told = pairs.filter(({ total }) => total.pValue !== null)
  const corrected = holm(told.map(({ total }) => total.pValue!))
  const cells = pairs.map((comparison): MatrixCell => {
    const at = told.indexOf(comparison)
    const holmP = at < 0 ? null : corrected[at]!
    return { comparison, holmP, distinct: holmP !== null && holmP < LEVEL }
  })
  const ranked = sorted.map((aero, i): RankedRow => ({
    rank: i + 1, configurationId: aero.configurationId, totalClaM2: aero.total.claM2,
    frontShare: aero.balance.frontShare, tiedWith: tiesOf(aero.configurationId, cells),
  }))
  return { ranked, cells, pairCount: told.length, remarks: remarksOn(sorted, cells, told.length) }
}

const tiesOf = (id: string, cells: readonly MatrixCell[]): string[] =>
  cells.flatMap(({ distinct, comparison: { configurationA, configurationB } }) => {
    if (distinct || (configurationA !== id && configurationB !== id)) return []
    return [configurationA === id ? configurationB : configurationA]
  })

function remarksOn(sorted: readonly ConfigurationAero[], cells: readonly MatrixCell[], pairs: number): Remark[] {
  const remarks: Remark[] = []
  if (pairs > 1) remarks.push(aeroRemark('holmApplied', 'note', { pairs }))
  const bounds = sorted.filter(({ total }) => total.claM2.claim.kind !== 'value').length
  if (bounds > 0) remarks.push(aeroRemark('rankedByBound', 'warning', { configurations: bounds }))
  if (cells.some(({ comparison }) => comparison.measure === null)) remarks.push(aeroRemark('noCommonMeasure', 'warning'))
  return remarks
}

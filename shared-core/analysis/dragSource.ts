/** Where the set-ups' drag comes from: the newest coasts that tell one; else the pull of the line on the bench. */
import type { ConfigurationAero } from '@core/aero'
import { ROLLING_WITHOUT_COASTS, type CoastsRead, type DragDifference, type LinesRead, type Speeds } from '@core/drag'
import { fromSource, known, subtractClaims, told, type Told, type Uncertain } from '@core/uncertainty'

export interface DragSource {
  readonly from: 'coasts' | 'line'
  readonly drags: readonly {
    readonly configurationId: string
    readonly cdaM2: Told
    /** A coast that would part rolling from air where these can't; else null. */
    readonly wouldPart: Speeds | null
  }[]
  /** Every pair of set-ups once: drag area of A less that of B. */
  readonly differences: readonly DragDifference[]
  readonly rollingShare: Uncertain
  readonly rotatingShare: Uncertain
  readonly densityKgM3: Uncertain
}

/** Turning parts' share of the mass where no coasts tell it: 3 to 8 % (common practice, no source). */
const TURNING = { value: 0.05, u: 0.02 } as const

/** Null where neither tells a drag. */
export function dragSourceOf(
  coasts: CoastsRead | null, lines: LinesRead, aeros: ReadonlyMap<string, ConfigurationAero>,
): DragSource | null {
  if (coasts?.parts) {
    return {
      from: 'coasts', drags: coasts.drags, differences: coasts.differences, rollingShare: coasts.parts.rollingShare,
      rotatingShare: coasts.rotatingShare, densityKgM3: coasts.densityKgM3,
    }
  }
  const densityKgM3 = [...aeros.values()].at(-1)?.densityKgM3
  if (lines.setups.length === 0 || !densityKgM3) return null
  const { share, halfWidth } = ROLLING_WITHOUT_COASTS
  return {
    from: 'line', densityKgM3,
    drags: lines.setups.map(({ configurationId, cdaM2 }) => ({ configurationId, cdaM2, wouldPart: null })),
    differences: lines.setups.flatMap((one, i) => lines.setups.slice(i + 1).map((other): DragDifference => ({
      configurationA: one.configurationId, configurationB: other.configurationId,
      cdaM2: told(subtractClaims(one.cdaM2.claim, other.cdaM2.claim)),
    }))),
    rollingShare: fromSource(share, halfWidth / Math.sqrt(3), known('assumedRolling', 'tyre:rolling', 'rectangular')),
    rotatingShare: fromSource(TURNING.value, TURNING.u, known('turningParts', 'chassis:turning')),
  }
}

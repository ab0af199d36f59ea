/** From a coast fit to what may be said of each set-up: what all coasts share, and the tyres' share taken off. */
import {
  combine, fromData, fromSource, known, mapClaim, standardUncertainty, subtractClaims, times, told, untold,
  valueClaim, type Claim, type Uncertain,
} from '@core/uncertainty'
import { choleskyOf } from './normal'
import type { CoastFit, ConfigurationDrag, Speeds } from './types'

/** What scales a whole session's coasts. Relative standard uncertainties unless said otherwise. */
export interface CoastScales {
  readonly sessionId: string
  readonly massKg: Uncertain
  /** Turning parts' share of the mass. */
  readonly rotatingShare: Uncertain
  readonly densityKgM3: Uncertain
  /** Scale of the speeds, or of the gates' distances: true = shown (1 ± u). */
  readonly lengthU: number
}

/** Shared parameters of the fit with everything they depend on. */
export interface CoastParts {
  readonly rollingShare: Uncertain
  readonly windMs: Uncertain
  /** Area shown by the motion, CdA + c_r ClA, m^2, by set-up. */
  readonly areas: Readonly<Record<string, Uncertain>>
}

/**
 * The fit's covariance as sources (its Cholesky factor: one source a column, all of one pool), and the
 * scales: with m the mass, s the turning share and l the lengths' scale, areas go with m (1 + s)/(rho l),
 * the rolling share with (1 + s) l, the wind with l. Null where the covariance is none.
 */
export function coastParts(fit: CoastFit, scales: CoastScales): CoastParts | null {
  const factor = choleskyOf(fit.covariance)
  if (!factor) return null
  const areaDofs = fit.dofs.filter((_, i) => fit.names[i]!.kind === 'area')
  const dof = Math.min(...areaDofs)
  const pool = `coast:${scales.sessionId}`
  const sources = fit.names.map((_, column) => fromData('coastFit', `${pool}:fit:${column}`, dof, pool))
  const fitted = fit.names.map((_, i): Uncertain => ({
    value: fit.values[i]!,
    parts: sources.slice(0, i + 1).map((source, column) => ({ source, contribution: factor[i]![column]! })),
  }))
  const length = fromSource(1, scales.lengthU, known('coastLength', `${pool}:length`))
  const turning = combine(1 + scales.rotatingShare.value, [[scales.rotatingShare, 1]])
  const rolling = fitted[0]!
  const rollingShare = combine(rolling.value, [
    [rolling, 1],
    [turning, rolling.value / turning.value],
    [length, rolling.value],
  ])
  const areas = Object.fromEntries(
    fit.names.flatMap((name, i) => {
      if (name.kind !== 'area') return []
      const area = fitted[i]!
      return [
        [
          name.configurationId,
          combine(area.value, [
            [area, 1],
            [turning, area.value / turning.value],
            [scales.massKg, area.value / scales.massKg.value],
            [scales.densityKgM3, -area.value / scales.densityKgM3.value],
            [length, -area.value],
          ]),
        ],
      ]
    }),
  )
  return {
    rollingShare,
    windMs: combine(fitted[1]!.value, [
      [fitted[1]!, 1],
      [length, fitted[1]!.value],
    ]),
    areas,
  }
}

/** A drag area whose standard uncertainty is more than this share of it can't be told (half: zero is in reach). */
const MOST_RELATIVE_U = 0.5

/** Rolling that the air's load adds, as an area: c_r ClA, m^2. Null where the bench knows no load. */
export const pressedShare = ({ rollingShare }: CoastParts, cla: Claim | null): Claim | null =>
  cla && mapClaim(cla, 'rises', (lift) => times(lift, rollingShare))

/**
 * Drag area of a set-up: the area shown less the tyres' share of it, c_r ClA.
 *
 * @param cla the whole car's lift area by the bench; null takes no load to be there, which the caller says
 */
export function dragOf(
  fit: CoastFit,
  parts: CoastParts,
  configurationId: string,
  coastCount: number,
  cla: Claim | null,
): ConfigurationDrag {
  const area = parts.areas[configurationId]!
  const unclear = standardUncertainty(area) > MOST_RELATIVE_U * Math.abs(area.value)
  const shown: Claim = unclear
    ? untold('denominatorNearZero', { code: 'airAndRolling' })
    : valueClaim(area)
  const pressed = pressedShare(parts, cla)
  return {
    configurationId,
    coastCount,
    loadKnown: pressed !== null,
    cdaM2: told(pressed ? subtractClaims(shown, pressed) : shown),
    wouldPart: unclear ? wider(fit.coasts) : null,
  }
}

/** A coast from half as fast again down to half the last speed: it holds what parts rolling from air. */
export const wider = (rolled: readonly Speeds[]): Speeds => ({
  startMs: 1.5 * Math.max(...rolled.map(({ startMs }) => startMs)),
  endMs: 0.5 * Math.min(...rolled.map(({ endMs }) => endMs)),
})

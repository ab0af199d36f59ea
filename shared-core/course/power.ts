/**
 * Power at the wheels from a run at full throttle: what goes into motion and resistance together,
 * P t = m_e V^2 / 2 + integral of (A + C V^2) V dt, a straight line of energy over time.
 */

/** What a full-throttle run tells: power in W with the standard uncertainty of the line's slope. */
export interface PowerFound {
  readonly powerW: number
  readonly uW: number
  readonly dof: number
}

/** Least readings of a full-throttle run. */
const LEAST_READINGS = 6

/**
 * @param tS moments, s, rising
 * @param vMs speeds, m/s, of the stretch in which the throttle was full and the tyres gripped
 * @param car mass with its turning parts, kg, and the resistance of `drag`
 * @returns null with too few readings or where the power comes out as none
 */
export function powerFrom(
  tS: readonly number[],
  vMs: readonly number[],
  car: { readonly movingMassKg: number; readonly steadyN: number; readonly squareNPerMs2: number },
): PowerFound | null {
  if (tS.length < LEAST_READINGS || tS.length !== vMs.length) return null
  const lost = (v: number): number => (car.steadyN + car.squareNPerMs2 * v * v) * v
  let spent = 0
  const energies = vMs.map((v, i) => {
    if (i > 0) spent += ((lost(v) + lost(vMs[i - 1]!)) / 2) * (tS[i]! - tS[i - 1]!)
    return (car.movingMassKg * v * v) / 2 + spent
  })
  const n = tS.length
  const meanT = tS.reduce((sum, t) => sum + t, 0) / n
  const meanE = energies.reduce((sum, e) => sum + e, 0) / n
  const square = tS.reduce((sum, t) => sum + (t - meanT) ** 2, 0)
  const powerW = tS.reduce((sum, t, i) => sum + (t - meanT) * (energies[i]! - meanE), 0) / square
  if (!(powerW > 0)) return null
  const rest = energies.map((e, i) => e - meanE - powerW * (tS[i]! - meanT))
  const restSquare = rest.reduce((sum, e) => sum + e * e, 0)
  const chained = rest.reduce((sum, e, i) => (i > 0 ? sum + e * rest[i - 1]! : sum), 0)
  const alike = restSquare > 0 ? Math.min(0.95, Math.max(0, chained / restSquare)) : 0
  const dof = Math.max(1, ((n - 2) * (1 - alike)) / (1 + alike))
  return { powerW, uW: Math.sqrt(restSquare / dof / square), dof }
}

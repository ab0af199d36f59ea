/**
 * A car that coasts: m du/dt = -(B + C u^2), u its speed through the air, B all that does not change
 * with speed (rolling, slope), C half the density times an area. Solved in closed form, in a shape
 * that stays smooth where B or C go through zero (Riccati's equation with constant coefficients).
 *
 * m in kg, B in N, C in N/(m/s)^2, u in m/s, t in s.
 */

/** One coast: mass with its rotating parts, the two coefficients, and the air speed at t = 0. */
export interface Coast {
  readonly massKg: number
  readonly steadyN: number
  readonly squareNPerMs2: number
  readonly startMs: number
}

/** tan(x)/x for z = x^2 > 0, tanh(x)/x for z = -x^2 < 0, 1 between. */
function tangentOver(z: number): number {
  if (Math.abs(z) < 1e-5) return 1 + z / 3 + (2 * z * z) / 15
  const x = Math.sqrt(Math.abs(z))
  return z > 0 ? Math.tan(x) / x : Math.tanh(x) / x
}

/** sin(x)/x for z = x^2 > 0, sinh(x)/x below. */
function sineOver(z: number): number {
  if (Math.abs(z) < 1e-5) return 1 - z / 6 + (z * z) / 120
  const x = Math.sqrt(Math.abs(z))
  return z > 0 ? Math.sin(x) / x : Math.sinh(x) / x
}

/** Air speed after `t`, m/s; below zero or NaN once the car has come to rest. */
export function airSpeedAt({ massKg, steadyN, squareNPerMs2, startMs }: Coast, t: number): number {
  const z = steadyN * squareNPerMs2 * (t / massKg) ** 2
  if (z > QUARTER_TURN) return NaN
  const lever = (t / massKg) * tangentOver(z)
  return (startMs - steadyN * lever) / (1 + squareNPerMs2 * startMs * lever)
}

const QUARTER_TURN = (Math.PI / 2) ** 2

/** Distance through the air after `t`, m. */
export function airDistanceAt({ massKg, steadyN, squareNPerMs2, startMs }: Coast, t: number): number {
  const z = steadyN * squareNPerMs2 * (t / massKg) ** 2
  const bare = (startMs * t * sineOver(z)) / massKg - (steadyN * (t / massKg) ** 2 * sineOver(z / 4) ** 2) / 2
  const grown = squareNPerMs2 * bare
  return massKg * bare * (Math.abs(grown) < 1e-8 ? 1 - grown / 2 : Math.log1p(grown) / grown)
}

/** How the air speed after `t` changes with B, C and the speed at the start, at a speed known to be `u`. */
export interface SpeedSlopes {
  readonly steady: number
  readonly square: number
  readonly start: number
}

/** First-order dependence of `airSpeedAt` on what drives it. `u`: its value at `t`. */
export function speedSlopes(coast: Coast, t: number, u: number): SpeedSlopes {
  const { massKg, steadyN: b, squareNPerMs2: c, startMs } = coast
  const [here, before] = [b + c * u * u, b + c * startMs * startMs]
  const time = t / massKg
  if (Math.abs(b) < 1e-6 * Math.abs(before) || before === 0) return slopesByStep(coast, t)
  // Integrals of 1/(B + C v^2)^2 and v^2/(B + C v^2)^2 from u to the start.
  const first = (startMs / before - u / here + time) / (2 * b)
  const second = Math.abs(c) < 1e-12 ? (startMs ** 3 - u ** 3) / (3 * b * b) : (time - b * first) / c
  return { steady: -here * first, square: -here * second, start: here / before }
}

function slopesByStep(coast: Coast, t: number): SpeedSlopes {
  const slope = (key: 'steadyN' | 'squareNPerMs2' | 'startMs', step: number): number =>
    (airSpeedAt({ ...coast, [key]: coast[key] + step }, t) - airSpeedAt({ ...coast, [key]: coast[key] - step }, t)) /
    (2 * step)
  return { steady: slope('steadyN', 1e-5), square: slope('squareNPerMs2', 1e-8), start: slope('startMs', 1e-5) }
}

/** How the distance after `t` changes with the same, by central differences: gates are few. */
export function distanceSlopes(coast: Coast, t: number): SpeedSlopes {
  const slope = (key: 'steadyN' | 'squareNPerMs2' | 'startMs', step: number): number =>
    (airDistanceAt({ ...coast, [key]: coast[key] + step }, t) -
      airDistanceAt({ ...coast, [key]: coast[key] - step }, t)) /
    (2 * step)
  return { steady: slope('steadyN', 1e-5), square: slope('squareNPerMs2', 1e-8), start: slope('startMs', 1e-5) }
}

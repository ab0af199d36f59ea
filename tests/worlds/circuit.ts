/**
 * Driving round a course of straights and arcs, told by kinematics alone: the speed is a given smooth function of the
 * place, the way is stepped by the middle of each step, a sensor shows V^2/R or V/R with its zero and noise.
 */
export interface Piece { readonly lengthM: number; /** 1/m, left positive; 0 for a straight. */ readonly bend: number }

export interface Shown {
  readonly t: number[]
  readonly v: number[]
  readonly lateral: number[]
  readonly yaw: number[]
}

/** So many laps at a rate, standing for two seconds before. */
export function driveRound(
  pieces: readonly Piece[], laps: number, rateHz: number,
  sensor: { readonly zero: number; readonly noise: number; readonly speedNoise: number }, random: () => number,
): Shown {
  const round = pieces.reduce((sum, { lengthM }) => sum + lengthM, 0)
  const bendAt = (x: number): number => {
    let at = x % round
    for (const { lengthM, bend } of pieces) {
      if (at < lengthM) return bend
      at -= lengthM
    }
    return 0
  }
  const speedAt = (x: number): number =>
    8 + 1.6 * Math.sin((2 * Math.PI * x) / round) + 0.7 * Math.cos((4 * Math.PI * x) / round)
  const shown: Shown = { t: [], v: [], lateral: [], yaw: [] }
  const note = (t: number, v: number, bend: number): void => {
    shown.t.push(t)
    shown.v.push(Math.max(0, v + (v > 0 ? sensor.speedNoise * random() : 0)))
    shown.lateral.push(v * v * bend + sensor.zero + sensor.noise * random())
    shown.yaw.push(v * bend + sensor.zero + 0.1 * sensor.noise * random())
  }
  const dt = 1 / rateHz
  let t = 0
  for (; t < 2; t += dt) note(t, 0, 0)
  for (let x = 0; x < laps * round; t += dt) {
    const v = speedAt(x)
    note(t, v, bendAt(x))
    x += dt * speedAt(x + (dt / 2) * v)
  }
  return shown
}

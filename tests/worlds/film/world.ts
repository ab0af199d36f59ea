/**
 * A bench before a camera that is simulated by itself: nothing here is taken from the product. The car is a rigid
 * body on two axle springs with threshold, friction that sticks, and a body that rings; a pinhole camera with a bent
 * lens, not quite square, sees round stickers off the plane of the rule. The analysis takes the stickers to lie in
 * the plane but for their u, the lens as usual for a webcam, and friction as a constant band: this world breaks each
 * by draws of its own.
 */

/** Draws of a world: a small generator of its own (Marsaglia's xorshift, J. Stat. Software 8, 2003). */
export class Draws {
  private state: number
  constructor(seed: number) {
    this.state = (seed * 2_654_435_761 + 88_172_645) >>> 0 || 1
    for (let i = 0; i < 20; i++) this.unit()
  }

  unit(): number {
    let x = this.state
    x ^= x << 13
    x >>>= 0
    x ^= x >>> 17
    x ^= x << 5
    this.state = x >>> 0
    return (this.state + 0.5) / 4_294_967_296
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.unit()
  }

  /** Normal by the sum of twelve uniforms: tails end at six, which no camera exceeds either. */
  normal(sd: number): number {
    let sum = -6
    for (let i = 0; i < 12; i++) sum += this.unit()
    return sd * sum
  }
}

export interface AxleTruth {
  /** N per mm of the axle. */
  readonly rateNPerMm: number
  readonly frictionN: number
}

export interface FilmWorld {
  readonly front: AxleTruth
  readonly rear: AxleTruth
  readonly camera: {
    readonly widthPx: number
    readonly heightPx: number
    readonly focalPx: number
    readonly distanceMm: number
    readonly yaw: number
    readonly pitch: number
    readonly roll: number
    readonly k1: number
    readonly centreX: number
    readonly centreY: number
  }
  /** mm: x along the car to the right, y up from the ground, z off the plane away from the camera. */
  readonly spots: Readonly<Record<SpotName, Spot>>
  readonly ruleMm: number
  /** Scatter of a followed place, px, and how much of it lasts from one frame to the next. */
  readonly followPx: number
  readonly memory: number
  readonly framesPerS: number
}

export type SpotName =
  | 'ruleLeft' | 'ruleRight' | 'groundLeft' | 'groundRight' | 'frontHub' | 'frontChassis' | 'rearHub' | 'rearChassis'
export interface Spot { readonly x: number; readonly y: number; readonly z: number }
export const SPOTS: readonly SpotName[] = [
  'ruleLeft', 'ruleRight', 'groundLeft', 'groundRight', 'frontHub', 'frontChassis', 'rearHub', 'rearChassis',
]
export interface Place { readonly x: number; readonly y: number }

export const RULE_MM = 200
export const WHEELBASE_MM = 260

/** Draws a world; the same seed gives the same one. */
export function drawFilmWorld(seed: number, widthPx = 1280, framesPerS = 30): FilmWorld {
  const draw = new Draws(seed)
  const off = (): number => draw.normal(2)
  const half = WHEELBASE_MM / 2
  const rule = RULE_MM + draw.normal(0.2)
  return {
    front: { rateNPerMm: draw.between(1.5, 3), frictionN: draw.between(0, 0.15) },
    rear: { rateNPerMm: draw.between(1.5, 3), frictionN: draw.between(0, 0.15) },
    camera: {
      widthPx, heightPx: (widthPx * 9) / 16, focalPx: widthPx * draw.between(0.72, 1),
      distanceMm: draw.between(450, 560),
      yaw: draw.normal(0.02), pitch: draw.normal(0.02), roll: draw.normal(0.008), k1: draw.between(0, 0.2),
      centreX: draw.normal(0.012 * widthPx), centreY: draw.normal(0.008 * widthPx),
    },
    spots: {
      ruleLeft: { x: -rule / 2, y: -20, z: 0 }, ruleRight: { x: rule / 2, y: -20, z: 0 },
      groundLeft: { x: -190, y: 0, z: 0 }, groundRight: { x: 190, y: 0, z: 0 },
      frontHub: { x: -half, y: 32, z: off() }, frontChassis: { x: -half + 40, y: 62, z: off() },
      rearHub: { x: half, y: 32, z: off() }, rearChassis: { x: half - 40, y: 66, z: off() },
    },
    ruleMm: rule, followPx: draw.between(0.03, 0.12), memory: draw.between(0, 0.6),
    framesPerS,
  }
}

/** Where a point of the world appears: turned, projected, bent, moved to the picture's middle. */
export function appears({ camera }: FilmWorld, { x, y, z }: Spot): Place {
  const [cy, sy] = [Math.cos(camera.yaw), Math.sin(camera.yaw)]
  const [cp, sp] = [Math.cos(camera.pitch), Math.sin(camera.pitch)]
  const [cr, sr] = [Math.cos(camera.roll), Math.sin(camera.roll)]
  const up = y - 45
  const ahead = z + camera.distanceMm
  const [x1, z1] = [cy * x - sy * ahead, sy * x + cy * ahead]
  const [y2, z2] = [cp * up - sp * z1, sp * up + cp * z1]
  const u = (camera.focalPx * (cr * x1 + sr * y2)) / z2
  const v = (-camera.focalPx * (cr * y2 - sr * x1)) / z2
  // The lens shows a point nearer to the middle than a straight one would: solved for by halving.
  const reach = Math.hypot(u, v)
  const unit = Math.hypot(camera.widthPx, camera.heightPx) / 2
  let low = 0
  let high = reach
  for (let i = 0; i < 50; i++) {
    const seen = (low + high) / 2
    if (seen * (1 + camera.k1 * (seen / unit) ** 2) < reach) low = seen
    else high = seen
  }
  const shrink = reach > 0 ? low / reach : 1
  return {
    x: camera.widthPx / 2 + camera.centreX + u * shrink, y: camera.heightPx / 2 + camera.centreY + v * shrink,
  }
}

/** Drops of the two axle lines, mm. */
export interface Drops { readonly front: number; readonly rear: number }

/** A suspension that sticks: the drop stays until the spring's pull leaves the friction band, then follows its edge. */
export class Stuck {
  private atMm = 0
  constructor(private readonly axle: AxleTruth) {}

  /** Drop once the load has come to rest, mm. */
  settle(loadN: number): number {
    const { rateNPerMm, frictionN } = this.axle
    const [least, most] = [(loadN - frictionN) / rateNPerMm, (loadN + frictionN) / rateNPerMm]
    this.atMm = Math.min(Math.max(this.atMm, least), most)
    return this.atMm
  }
}

/** Places of all spots in a frame; the body's spots sink with their axles, as a rigid body. */
export function placesOf(world: FilmWorld, drops: Drops): Record<SpotName, Place> {
  const at = (name: SpotName): Spot => {
    const spot = world.spots[name]
    if (!name.endsWith('Chassis')) return spot
    const share = (spot.x + WHEELBASE_MM / 2) / WHEELBASE_MM
    return { ...spot, y: spot.y - drops.front * (1 - share) - drops.rear * share }
  }
  return Object.fromEntries(SPOTS.map((name) => [name, appears(world, at(name))])) as Record<SpotName, Place>
}

export interface Frame {
  readonly timeS: number
  readonly places: Record<SpotName, Place | null>
  readonly light: number
}

/** What happens at the bench, against time: drops as they would be at rest, and hands that cover marks. */
export interface Script {
  readonly lastsS: number
  /** The drops that the loads or the air hold at a time; jumps ring out by themselves. */
  readonly restAt: (timeS: number) => Drops
  /** Shiver in the air, mm; 0 with the air off. */
  readonly shiverAt: (timeS: number) => number
  /** Marks that a hand hides. */
  readonly hiddenAt: (timeS: number) => readonly SpotName[]
  /** How far the tripod has slipped, px. */
  readonly slipAt?: (timeS: number) => Place
  readonly lightAt?: (timeS: number) => number
  readonly dropsFrame?: (timeS: number) => boolean
}

/** Frames of a script, one after the other. The body rings as a damped oscillator about where it will rest. */
export function* filmOf(world: FilmWorld, script: Script, seed: number): Generator<Frame> {
  const draw = new Draws(seed)
  const step = 1 / world.framesPerS
  const ring = { front: 0, rear: 0, frontV: 0, rearV: 0 }
  let last = script.restAt(0)
  const [stiff, damp] = [(2 * Math.PI * 6) ** 2, 2 * 0.25 * 2 * Math.PI * 6]
  const lag = new Map<string, number>()
  let phase = 0
  for (let k = 0; k * step < script.lastsS; k++) {
    const timeS = k * step
    const rest = script.restAt(timeS)
    ring.front += last.front - rest.front
    ring.rear += last.rear - rest.rear
    last = rest
    for (let sub = 0; sub < 8; sub++) {
      const dt = step / 8
      ring.frontV += (-stiff * ring.front - damp * ring.frontV) * dt
      ring.rearV += (-stiff * ring.rear - damp * ring.rearV) * dt
      ring.front += ring.frontV * dt
      ring.rear += ring.rearV * dt
    }
    phase += 2 * Math.PI * draw.between(2, 6) * step
    const shiver = script.shiverAt(timeS)
    const drops = {
      front: rest.front + ring.front + shiver * Math.sin(phase) + draw.normal(shiver / 3),
      rear: rest.rear + ring.rear + shiver * Math.cos(1.3 * phase) + draw.normal(shiver / 3),
    }
    const slip = script.slipAt?.(timeS) ?? { x: 0, y: 0 }
    const hidden = new Set(script.hiddenAt(timeS))
    const places = placesOf(world, drops)
    const seen = Object.fromEntries(SPOTS.map((name) => {
      const scatter = (axis: 'x' | 'y'): number => {
        const key = `${name} ${axis}`
        const fresh = draw.normal(world.followPx * Math.sqrt(1 - world.memory ** 2))
        const value = world.memory * (lag.get(key) ?? 0) + fresh
        lag.set(key, value)
        return value
      }
      const [dx, dy] = [scatter('x'), scatter('y')]
      return [name, hidden.has(name) ? null : { x: places[name].x + dx + slip.x, y: places[name].y + dy + slip.y }]
    })) as Record<SpotName, Place | null>
    if (script.dropsFrame?.(timeS)) continue
    yield { timeS, places: seen, light: script.lightAt?.(timeS) ?? 120 + draw.normal(0.3) }
  }
}

/** What happens at the bench in a film: a squat test by hand, a blower run, and things that go wrong. */
import { Draws, Stuck, type Drops, type FilmWorld, type Script, type SpotName } from './world'

/** Masses laid on one after the other and taken off again, kg; each stays for `stayS`, midway between the axles. */
export const SQUAT_KG = [0, 0.4, 0.8, 1.2, 1.6, 1.2, 0.8, 0.4, 0] as const
export const GRAVITY_MS2 = 9.81

export interface SquatScript extends Script {
  /** When each mass begins to lie, s. */
  readonly fromS: readonly number[]
  readonly drops: readonly Drops[]
}

/** A squat test: hands come, cover marks, lay the load, lean on the body a little, and go. The first rest is longer. */
export function squatScript(
  world: FilmWorld, seed: number, { stayS = 6, leadS = 0, massesKg = SQUAT_KG as readonly number[] } = {},
): SquatScript {
  const draw = new Draws(seed)
  const fromS = massesKg.map((_, k) => (k === 0 ? 0 : leadS + k * stayS + draw.between(0, 0.1 * stayS)))
  const [front, rear] = [new Stuck(world.front), new Stuck(world.rear)]
  const drops = massesKg.map((kg): Drops => {
    const half = (kg * GRAVITY_MS2) / 2
    return { front: front.settle(half), rear: rear.settle(half) }
  })
  const covers = massesKg.map((): SpotName => (draw.unit() < 0.5 ? 'frontChassis' : 'rearChassis'))
  const stepAt = (timeS: number): number => Math.max(0, fromS.findLastIndex((from) => from <= timeS))
  return {
    lastsS: leadS + stayS * massesKg.length, fromS, drops, shiverAt: () => 0,
    restAt: (timeS) => {
      const k = stepAt(timeS)
      const leans = k > 0 && timeS - fromS[k]! < 0.5 ? 0.6 : 0
      return { front: drops[k]!.front + leans, rear: drops[k]!.rear + leans }
    },
    hiddenAt: (timeS) => {
      const k = massesKg.findIndex((_, i) => i > 0 && timeS > fromS[i]! - 0.4 && timeS < fromS[i]! + 0.3)
      return k > 0 ? [covers[k]!] : []
    },
  }
}

export interface AirScript extends Script {
  /** Loads of the air on each axle, N, and the drops it holds. */
  readonly loadN: Drops
  readonly drops: Drops
  readonly restAfter: Drops
  readonly onS: readonly [number, number]
}

/**
 * A blower run: rest, air that comes within a second and shakes the car, rest; the zero creeps a little. Rest and air
 * last as long as given, or up to two seconds longer.
 */
export function airScript(world: FilmWorld, seed: number, { restS = 7, airS = 11 } = {}): AirScript {
  const draw = new Draws(seed)
  const loadN = { front: draw.between(1.5, 6), rear: draw.between(1.5, 6) }
  const [front, rear] = [new Stuck(world.front), new Stuck(world.rear)]
  const drops = { front: front.settle(loadN.front), rear: rear.settle(loadN.rear) }
  const restAfter = { front: front.settle(0), rear: rear.settle(0) }
  const onS = [restS + draw.between(0, 2), restS + airS + draw.between(0, 2)] as const
  const shiverMm = draw.between(0.02, 0.15)
  const creep = draw.normal(0.002)
  const share = (timeS: number): number => {
    const rise = (at: number): number => Math.min(1, Math.max(0, (timeS - at) / 0.8))
    return rise(onS[0]) - rise(onS[1])
  }
  return {
    lastsS: restS + airS + 10, loadN, drops, restAfter, onS, hiddenAt: () => [],
    shiverAt: (timeS) => shiverMm * share(timeS),
    restAt: (timeS) => {
      const s = share(timeS)
      const base = timeS > onS[1] ? restAfter : { front: 0, rear: 0 }
      return {
        front: base.front * (1 - s) + drops.front * s + creep * timeS,
        rear: base.rear * (1 - s) + drops.rear * s + creep * timeS,
      }
    },
  }
}

/** A car that stands still while the light goes down and comes back, and then the tripod slips and is set back. */
export const troubledScript: Script = {
  lastsS: 13, restAt: () => ({ front: 0, rear: 0 }), shiverAt: () => 0, hiddenAt: () => [],
  lightAt: (timeS) => (timeS > 4 && timeS < 5.5 ? 80 : 120),
  slipAt: (timeS) => (timeS > 6.5 && timeS < 10 ? { x: 4, y: 2 } : { x: 0, y: 0 }),
}

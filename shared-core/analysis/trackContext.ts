/** What the track check needs of the bench and the car. */
import { bareAero, wholeLoads, type ConfigurationAero, type Curves } from '@core/aero'
import type { RunResult } from '@core/airflow'
import { localGravity, staticLoads } from '@core/chassis'
import type { Chassis } from '@core/schema'
import type { BenchLoads, CarWeight, SensorPlace } from '@core/track'
import { lowEnd } from '@core/uncertainty'
import type { ConfigurationResult } from './types'

/**
 * Aero of every set-up. One that was only blown as a control run goes by that: the car as it was read.
 *
 * @param runs of every airflow session
 */
export function aerosOf(
  configurations: readonly Pick<ConfigurationResult, 'configurationId' | 'aero'>[], runs: readonly RunResult[], chassis: Chassis,
): ReadonlyMap<string, ConfigurationAero> {
  const known = new Map<string, ConfigurationAero>(configurations.map((each) => [each.configurationId, each.aero]))
  for (const { id } of chassis.configurations) {
    const bare = known.has(id) ? null : bareAero(runs, id, chassis)
    if (bare) known.set(id, bare)
  }
  return known
}

/**
 * The bench's loads at a road speed. Tyres carry all that the air does to the car, so every set-up goes
 * by the car as it was read, bodywork included.
 *
 * @param curves the newest curves, which stand for the springs now fitted
 */
export function benchOf(
  known: ReadonlyMap<string, ConfigurationAero>, curves: Curves, chassis: Pick<Chassis, 'tyres'>,
): BenchLoads | null {
  if (known.size === 0) return null
  return {
    loadAt: (configurationId, speedMs) => {
      const aero = known.get(configurationId)
      return aero ? wholeLoads(aero, curves, chassis, speedMs) : null
    },
  }
}

/** Weight of the car from its corner masses; null without them. */
export function weightOf(chassis: Chassis): CarWeight | null {
  const loads = staticLoads(chassis)
  return loads && { totalN: loads.totalN, axlesN: loads.axles, gravityMs2: localGravity(chassis.place).ms2.value }
}

/** Load on the whole car at which its tray is down first, N, in the air of its runs; absent where none is known. */
export function touchLoads(configurations: readonly ConfigurationResult[]): ReadonlyMap<string, number> {
  return new Map(configurations.flatMap(({ configurationId, aero, touchDowns: { firstMs } }): [string, number][] => {
    const cla = lowEnd(aero.whole.total.claM2.claim)
    const speed = firstMs.kind === 'interval' ? firstMs.value : firstMs.kind === 'atLeast' ? firstMs.bound : null
    if (!cla || speed === null) return []
    return [[configurationId, (aero.densityKgM3.value / 2) * cla.value * speed ** 2]]
  }))
}

/** Where each acceleration sensor sits in the car, by its id. */
export const placesOf = ({ accelerometers = [] }: Chassis): ReadonlyMap<string, SensorPlace> =>
  new Map(accelerometers.flatMap(({ id, place }) => (place ? [[id, place] as const] : [])))

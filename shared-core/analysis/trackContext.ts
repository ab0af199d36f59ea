/** What the track check needs of the bench and the car. */
import { bareAero, wholeLoads, type ConfigurationAero, type Curves } from '@core/aero'
import type { RunResult } from '@core/airflow'
import { staticLoads } from '@core/chassis'
import type { Chassis } from '@core/schema'
import type { BenchLoads, CarWeight } from '@core/track'
import type { ConfigurationResult } from './types'

/**
 * The bench's loads at a road speed. Tyres carry all that the air does to the car, so every set-up goes
 * by the car as it was read, bodywork included; one that was only blown as a control run goes by that.
 *
 * @param runs of every airflow session
 * @param curves the newest curves, which stand for the springs now fitted
 */
export function benchOf(
  configurations: readonly Pick<ConfigurationResult, 'configurationId' | 'aero'>[], runs: readonly RunResult[],
  curves: Curves, chassis: Chassis,
): BenchLoads | null {
  const known = new Map<string, ConfigurationAero>(configurations.map((each) => [each.configurationId, each.aero]))
  for (const { id } of chassis.configurations) {
    const bare = known.has(id) ? null : bareAero(runs, id, chassis)
    if (bare) known.set(id, bare)
  }
  if (known.size === 0) return null
  return {
    loadAt: (configurationId, speedMs) => {
      const aero = known.get(configurationId)
      return aero ? wholeLoads(aero, curves, speedMs) : null
    },
  }
}

/** Weight of the car from its corner masses; null without them. */
export function weightOf(chassis: Chassis): CarWeight | null {
  const loads = staticLoads(chassis)
  return loads && { totalN: loads.totalN, axlesN: loads.axles }
}

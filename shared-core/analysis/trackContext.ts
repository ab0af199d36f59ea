/** What the track check needs of the bench and the car. */
import { staticLoads } from '@core/chassis'
import type { Chassis } from '@core/schema'
import type { BenchLoads, CarWeight } from '@core/track'
import { scaleClaim, timesPositive, times, type Claim, type Uncertain } from '@core/uncertainty'
import type { ConfigurationResult } from './types'

/** Load of a configuration at a road speed: half the density times speed squared times ClA. */
export function benchOf(configurations: readonly ConfigurationResult[]): BenchLoads | null {
  if (configurations.length === 0) return null
  return {
    loadAt: (configurationId, speedMs) => {
      const aero = configurations.find((each) => each.configurationId === configurationId)?.aero
      if (!aero) return null
      const pressure = times(aero.densityKgM3, times(speedMs, speedMs))
      const load = (cla: Claim): Claim => scaleClaim(timesPositive(cla, pressure as Uncertain), 0.5)
      return {
        axles: { front: load(aero.axles.front.claM2.claim), rear: load(aero.axles.rear.claM2.claim) },
        total: load(aero.total.claM2.claim),
      }
    },
  }
}

/** Weight of the car from its corner masses; null without them. */
export function weightOf(chassis: Chassis): CarWeight | null {
  const loads = staticLoads(chassis)
  return loads && { totalN: loads.totalN, axlesN: loads.axles }
}

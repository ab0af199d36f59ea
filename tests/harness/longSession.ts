/** A session as large as anyone's will get: many ramps up and down, four corners each step. Every name is invented. */
import { CORNERS } from '@core/schema'
import type { Chassis, Exchange, Reading, SquatStep } from '@core/schema'
import { sampleChassis, sampleExchange, sampleSquat } from './sample'

const AT = '2031-05-04T09:30:00.000Z'
const BAGS = 12
const BAG_KG = 0.25

/** Steps of one ramp: the zero, the bags on one by one, the bags off again. */
const RAMP = [...Array(BAGS + 1).keys(), ...Array.from({ length: BAGS - 1 }, (_, index) => BAGS - 1 - index)]

function carWithBags(id: string): Chassis {
  const chassis = sampleChassis(id, 'Long test mule')
  return {
    ...chassis,
    stations: {
      frontLeft: { xMm: -20, yMm: -70 }, frontRight: { xMm: -20, yMm: 70 },
      rearLeft: { xMm: 270, yMm: -68 }, rearRight: { xMm: 270, yMm: 68 },
    },
    scales: [{ id: 'scale', name: 'Kitchen scale', resolutionKg: 0.001, gainU: 0.003, checks: [] }],
    loads: Array.from({ length: BAGS }, (_, index) => ({
      id: `bag${index}`, name: `Bag ${index + 1}`, note: '',
      weighings: [{ id: 'w', at: AT, scaleId: 'scale', massKg: BAG_KG, corrections: [], setAside: null }],
    })),
  }
}

/** An exchange file whose one squat test holds so many readings: a stiffening spring, friction, last digits. */
export function longExchange(id: string, readingCount = 5000): Exchange {
  const steps: SquatStep[] = []
  const readings: Reading[] = []
  for (let count = 0; readings.length < readingCount; count += 1) {
    const place = count % RAMP.length
    const bags = RAMP[place] ?? 0
    const up = place <= BAGS
    steps.push({
      id: `s${count}`,
      branch: bags === 0 ? 'zero' : up ? 'loading' : 'unloading',
      ramp: Math.floor(count / RAMP.length) + 1,
      placed: Array.from({ length: bags }, (_, index) => ({ loadId: `bag${index}`, xMm: 128, yMm: 0, uPlaceMm: 1 })),
      touched: { front: false, rear: false }, note: '', setAside: null,
    })
    const dropMm = 0.9 * bags - 0.02 * bags * bags + (up ? 0 : 0.15)
    for (const [index, corner] of CORNERS.entries()) {
      readings.push({
        id: `r${readings.length}`, stepId: `s${count}`, corner, at: AT,
        shownMm: Math.round((22 - dropMm + 0.03 * ((count * 7 + index * 3) % 5)) * 100) / 100,
        from: { kind: 'gauge' }, corrections: [], setAside: null,
      })
    }
  }
  const empty = sampleSquat(id, 'long', [], 'Long squat test')
  const session = { ...empty, steps, readings: readings.slice(0, readingCount), revision: 1 }
  return { ...sampleExchange(id, 0), chassis: { ...carWithBags(id), revision: 1 }, sessions: [session] }
}

/** The camera as an instrument of the car. */
import type { Chassis } from '@core/schema'
import { newId } from '../../stores/ids'
import { useProject } from '../../stores/project'

/** The camera's gauge of the open car, added where there is none: it brings its own uncertainty with each reading. */
export function cameraGauge(name: string): string {
  const project = useProject()
  const car = project.chassis as Chassis
  const held = car.gauges.find((each) => each.reads === 'height' && each.name === name)
  if (held) return held.id
  const id = newId('gauge')
  project.changeChassis(name, (draft) => {
    draft.gauges.push({
      id, name, reads: 'height', resolutionMm: 0.001, scaleU: 0, zeroUMm: 0, repeatabilityUMm: 0,
    })
  })
  return id
}

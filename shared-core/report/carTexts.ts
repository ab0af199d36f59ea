/** The words of the car that carries its load: beside each axle, and the whole as one sentence. */
import type { LoadedAxle, LoadedCar, Texts } from '@core/drawing'
import { perAxleOf } from '@core/chassis'
import { AXLES, type Axle } from '@core/schema'
import type { Voice } from './paper'

export function carTexts(car: LoadedCar, voice: Voice): Texts {
  return perAxleOf((axle: Axle) => {
    const { loadN, clearanceMm, state } = car.axles[axle]
    const free = state === 'free' && clearanceMm.kind === 'interval'
    return {
      name: voice.say(axle === 'front' ? 'frontTitle' : 'rearTitle'), load: voice.main(loadN, 'force'),
      ends: loadN.kind === 'interval' && loadN.u > 0 ? voice.detail(loadN, 'force') : '',
      room: roomText(car.axles[axle], voice), roomEnds: free ? voice.detail(clearanceMm, 'length') : '',
    }
  })
}

function roomText({ clearanceMm, state }: LoadedAxle, voice: Voice): string {
  if (state === 'touching') return voice.say('pictureDown')
  if (state === 'unstable') return voice.say('pictureUnstable')
  if (clearanceMm.kind === 'untold') return voice.say('pictureNoRoom')
  return voice.say('pictureRoom', { room: voice.main(clearanceMm, 'length') })
}

/** What the drawing shows, for those who cannot see it. */
export function carSentence(car: LoadedCar, voice: Voice): string {
  return AXLES.map((axle) => {
    const { name, load, room } = carTexts(car, voice)[axle]
    return `${name}: ${load}, ${room}`
  }).join('; ')
}

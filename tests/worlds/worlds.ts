/** The worlds: what each breaks, by what size. Everything else of the bench is as its profile says. */

export interface World {
  readonly name: string
  /** Which assumption of the analysis it breaks. */
  readonly about: string
  /** Standard deviation of how far the whole car re-settles at every state and step, mm. */
  readonly resettleMm: number
  /** Relative standard deviations of V squared from place to place (fixed for a setting) and of a reading of V. */
  readonly placeUneven: number
  readonly speedNoise: number
  /** Force at which the sliders give way, N; 0 for a car that is bounced before each reading. */
  readonly slidesN: number
  /** The car is held by a line at hook height while its drag acts elsewhere. */
  readonly heldByLine: boolean
  /** The tray meets the ground behind the rear axle, in the stronger jets. */
  readonly diffuser: boolean
  /** Read from the ground past a camera, on tyres that grow; the tray meets the ground past the speeds read. */
  readonly passes: boolean
  /** Loads of the squat test, and whether they come off again one by one. */
  readonly rungs: number
  readonly down: boolean
}

const as: World = {
  name: 'as assumed', about: 'nothing: the same bench, drawn by other formulas', resettleMm: 0, placeUneven: 0.05,
  speedNoise: 0.005, slidesN: 0, heldByLine: false, diffuser: false, passes: false, rungs: 6, down: true,
}

export const WORLDS: readonly World[] = [
  as,
  {
    ...as, name: 're-settling', resettleMm: 0.1,
    about: 'the whole car comes to rest anew by 0.1 mm at each state, the gauge repeats to 0.04 mm',
  },
  {
    ...as, name: 'traverse noise', placeUneven: 0, speedNoise: 0.03,
    about: 'an even jet, read once a point with 3 % of noise, anew for each run of one setting',
  },
  {
    ...as, name: 'uneven jet', placeUneven: 0.1, speedNoise: 0.01,
    about: 'a jet uneven by 10 % that is the same at each setting, read with 1 % of noise',
  },
  { ...as, name: 'friction with memory', slidesN: 0.3, about: 'sliders that hold 0.3 N and remember, never bounced' },
  {
    ...as, name: 'drag moment', heldByLine: true,
    about: 'held by a line at hook height, its pull read; drag acts elsewhere and moves load to the front',
  },
  {
    ...as, name: 'touch behind the rear axle', diffuser: true,
    about: 'the tray meets the ground behind the rear axle, lifts it and presses the front',
  },
  {
    ...as, name: 'tyre growth', passes: true, rungs: 10,
    about: 'passes read from the ground, on tyres that grow with speed and keep the tray off it for longer',
  },
  { ...as, name: 'three loads only', rungs: 3, down: false, about: 'three loads up and none down again' },
]

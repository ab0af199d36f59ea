/** What keeps a result from being told, by name: the core's plain reason as a key of the catalogue. */

const KEYS: Readonly<Record<string, string>> = {
  'this axle has no curve yet': 'noCurve',
  'the drop at which the tray touches is not known': 'noTouchDrop',
  'the corners read do not tell this axle': 'cornersNotRead',
  'no run tells this load': 'noRun',
  'its load is not known': 'noLoad',
  'the load is not clear enough of zero': 'nearZero',
  'the loads are not clear enough of zero': 'nearZero',
  'the load may be nothing': 'nearZero',
  'the load in all may be nothing': 'nearZero',
  'runs at two clearly different speeds are needed': 'oneSpeed',
  'the corner masses are not entered': 'noCornerMasses',
  'the mass is not entered': 'noMass',
  'the weight on each axle is not known': 'noCornerMasses',
  'there is not that much room even at rest': 'noRoom',
  'the axle does not move freely at this speed': 'notFree',
  'this spring holds no height at this speed': 'springHoldsNone',
  'this axle is not pressed down: it touches at no speed': 'notPressed',
  'one end is not known': 'oneEnd',
  'no configuration was driven twice': 'notDrivenTwice',
  'one of the two has a single lap and no other run tells the scatter': 'singleLap',
  'one axle may lift': 'mayLift',
  'both axles are only known as bounds': 'bothBounds',
  'the lift would carry the whole car': 'allLift',
  'the tyre gives way faster than the curve': 'tyreFirst',
  'the tray on the ground may press this axle': 'mayBePressed',
}

/** The name under `parts.because` for a reason of the core; null where the kind of reason says it as well. */
export const untoldKey = (because: string): string | null => KEYS[because] ?? null
export const KNOWN_REASONS: readonly string[] = Object.keys(KEYS)

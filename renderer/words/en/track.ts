export const track = {
  caution: 'Drive only where nobody can be hit, behind a barrier, with someone watching; keep children and animals away. Keep fingers off spinning wheels. Charge and keep LiPo packs as their maker says. Follow the rules of the place.',
  name: 'Track check {count}', which: 'Track check', runs: 'Runs, in the order driven', runLabel: 'Run', runName: 'Circle {count}', addRun: 'Circle run', addTyped: 'Levels from a display', typedName: 'Levels {count}',
  levelsShown: 'Levels shown', levelsOf: 'Levels of {name}', levelOf: '{name}, level {count}', putAsideLevel: 'Put aside: {name}, level {count}', takeBackLevel: 'Take back: {name}, level {count}',
  uShown: 'u of one level', uShownHow: 'Last digit, and how it averages.', tyreTemperature: 'Tyres, temperature',
  emptyTitle: 'Does the track agree?', empty: 'Drive a circle of known radius, before, after, before again. Type the lap times.',
  radius: 'Radius of the path', uTime: 'Time u', surface: 'Surface', lap: 'Lap', lapOf: '{name}, lap {count}', putAside: 'Put aside: {name}, lap {count}', takeBack: 'Take back: {name}, lap {count}',
  more: 'Surface, ballast, tyres', moreCircle: 'Radius, timing, surface, ballast, tyres', mean: 'mean, 95 %', ballast: 'Ballast', tyreNote: 'Tyres', lapsS: 'Laps, s', lapsOf: 'Laps of {name}',
  sensitivity: 'How grip falls with load, exponent', sensitivityHow: 'Grip over load falls as load to this power. Empty: a usual range is assumed, and it is said.',
  manoeuvre: { circle: 'Circle', slalom: 'Slalom', launch: 'Launch', braking: 'Braking', other: 'Other' },
  after: '{after} after {before}', gain: 'Gain in cornering', difference: 'Difference', expected: 'The bench lets expect', noBench: 'The bench knows nothing of one of the two yet.', oneOnly: 'One set-up only: drive another to compare.',
  verdict: { agrees: 'Bench and track agree.', compatible: 'The track is on the right side of the bench’s bound.', trackLower: 'The track shows less than the bench expected.', trackHigher: 'The track shows more than the bench expected.', untold: 'Whether they agree can’t be told.' },
  repeats: 'Laps by order', orderAxis: 'Order', level: 'Level', used: 'Used', yes: 'yes', no: 'no',
}

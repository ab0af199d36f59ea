export const load = {
  otherSpeed: 'Ask at another speed, compare set-ups',
  emptyTitle: 'No downforce yet', empty: 'It needs a squat test with a curve, and a run in moving air.', runs: 'All runs', airSpeed: 'Air speed', controlRuns: '{n} control run taken off | {n} control runs taken off',
  noControl: 'No control run taken off: there is none in this air, and what the jet does to the bodywork by itself is still in this number.', noControlPass: 'No control run taken off: what the air does to the bodywork of a passing car is in this number.', controlTaken: 'Control run taken off, scaled to this run’s air: {names}.', controlsTaken: 'Mean of the control runs taken off, each scaled to this run’s air: {names}.', controlAt: '{name} at {speed}', speedUnknown: 'a speed not entered', taken: 'Taken off, {axle}',
  picture: 'Drop of each axle line in this run.', limits: 'Not modelled: the ground stands still under the car, the jet may be narrower than the track, the air is hemmed in, the wheels do not roll.',
  stated: 'Stated result', byTrials: 'Check it by simulation', statedOf: 'Downforce, {axle}', trials: '{count} trials.', trialsFailed: 'The trials broke off: {why}. Start them again.', agrees: 'The interval above agrees with it.', disagrees: 'The interval above differs from it by more than the check allows: where it matters, take this one.',
}

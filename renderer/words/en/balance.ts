export const balance = {
  title: 'Balance', how: 'Steady circles at several speeds tell the understeer gradient (ISO 4138): how much more steering, or path, each m/s² of cornering takes. Drive them well below the limit.',
  gradient: '{name}, {run}: understeer gradient, rad per m/s²', tends: { understeer: 'Tends to understeer.', oversteer: 'Tends to oversteer.', neutral: 'Neutral within its uncertainty.', untold: 'Which way it tends can’t be told.' },
  speed: 'A corner at', sentence: 'at {speed} the front carries this share of what it needs.', sentenceShare: 'at {speed} the front carries this share of what the rear does, each by its need.',
  carried: 'Front, share carried', frontOverRear: 'Front beside rear', none: 'For this the bench must know a set-up that was driven, and the car its corner masses.',
  steering: 'Steering', steerings: { held: 'held at one angle', logged: 'angle logged' }, uRadius: 'Radius u', uSteer: 'Angle u', point: 'Circle {count}', lap: 'Lap', steer: 'Front wheels’ angle', addPoint: 'Circle at another speed',
  addRun: 'Steady circles', runName: 'Steady {count}', putAside: 'Put aside: circle {count}', takeBack: 'Take back: circle {count}',
}

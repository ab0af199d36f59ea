export const balance = {
  title: 'Balance', how: 'Steady circles at several speeds tell the understeer gradient (ISO 4138): how much more steering, or path, each m/s² of cornering takes. Drive them well below the limit.',
  gradient: '{name}, {run}: understeer gradient, rad per m/s²', tends: { understeer: 'Tends to understeer.', oversteer: 'Tends to oversteer.', neutral: 'Neutral within its uncertainty.', untold: 'Which way it tends can’t be told.' },
  speed: 'A corner at', sentence: 'at {speed} the front carries {share} of what it needs.', sentenceShare: 'at {speed} the front carries {share} of what the rear does, each by its need.',
  tooFast: 'Neither axle carries what it needs: the car can’t take this corner so fast.', frontOverRear: 'Front beside rear',
  beside: 'Gradient beside shares', setUp: 'Set-up', gradientShort: 'Understeer gradient, rad per m/s²', airShare: 'Front share of the air', weightShare: 'Front share standing',
  change: '{after} after {before}: the gradient changes by {change} rad per m/s².', changes: { more: 'It understeers more.', less: 'It understeers less.', same: 'No change can be told.' },
  airLess: 'Its air loads the front less than the weight does: by the bench it understeers more the faster it goes.', airMore: 'Its air loads the front more than the weight does: by the bench it understeers less the faster it goes.', airSame: 'Its air loads the front about as the weight does: by the bench nothing changes with speed.', none: 'For this the bench must know a set-up that was driven, and the car its corner masses.',
  steering: 'Steering', steerings: { held: 'held at one angle', logged: 'angle logged' }, uRadius: 'Radius u', uSteer: 'Angle u', point: 'Circle {count}', lap: 'Lap', steer: 'Front wheels’ angle', addPoint: 'Circle at another speed',
  addRun: 'Steady circles', runName: 'Steady {count}', putAside: 'Put aside: circle {count}', takeBack: 'Take back: circle {count}',
}

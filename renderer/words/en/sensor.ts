export const sensor = {
  title: 'Calibrate an acceleration sensor', how: 'Lay it on each of its six faces on a level table, keep it still, and type what its three axes show. Gain, cross terms and bias are told apart from how it lies in the car.',
  add: 'Sensor', name: 'Sensor {count}', called: 'Name', level: 'Faces level within, u', temperature: 'Temperature then', reading: 'reading of a face', place: 'place of the sensor',
  next: 'Reading {count}: {face}', faces: { xUp: 'x up', xDown: 'x down', yUp: 'y up', yDown: 'y down', zUp: 'z up', zDown: 'z down' },
  shows: '{axis} shows', keep: 'Keep the reading', up: 'Face', putAside: 'Put aside: reading {count}', takeBack: 'Take back: reading {count}',
  missing: 'Still missing: {faces}.', axis: 'Axis', gain: 'Gain, ± 95 %', cross: 'Cross terms', bias: 'Bias', use: 'Kept with the sensor: choose it when you read a log.', misfit: 'The readings do not fit twelve numbers within scatter and lean: repeat {face}.',
  ahead: 'Sits ahead of the centre of gravity', right: 'Sits to its right', placeHow: 'A sensor away from the centre shows more on one side of a circle and less on the other; levels are told for the centre of gravity.',
}

import type { SourceGroup } from '@core/uncertainty'

export const overview = {
  next: 'Next', done: 'All parts are there. Print the report, or improve what is below.', nowWhat: 'What would help most',
  mostDoubt: '{advice}: {share} of the doubt about {what}.', ofLoad: 'the downforce', ofCurve: 'the {axle} curve',
  parts: 'The whole job', part: 'Part', there: 'There', wants: 'Missing', accuracy: 'How good it is now', better: 'What improves it most',
  nothingMissing: 'nothing', notYet: 'nothing yet', asYouLike: 'if you like', ofDoubt: '{advice} ({share} of the doubt)',
  is: {
    car: '{name}: wheelbase {wheelbase}', loads: '{count} weighed load | {count} weighed loads',
    squat: '{tests} squat test, {steps} steps, {readings} heights | {tests} squat tests, {steps} steps, {readings} heights',
    curve: 'front: {front}; rear: {rear}', noCurve: 'none', airflow: '{runs} run that can be read, {controls} control runs | {runs} runs that can be read, {controls} control runs',
    load: '{name} presses hardest', decide: '{setUps} set-up, {apart} of {pairs} pairs clearly different | {setUps} set-ups, {apart} of {pairs} pairs clearly different',
    track: '{laps} lap that counts | {laps} laps that count', drag: '{coasts} coast that tells a drag | {coasts} coasts that tell a drag',
    report: 'one page to hand round, and its annex',
  },
  good: { loads: 'each within {half}', air: 'air speed within {half}', curve: '{axle}, read back', load: 'at {speed}', gain: 'gain on the track', drag: 'drag at {speed}' },
  advice: {
    scaleGain: 'Check the kitchen scale against a known mass', scaleResolution: 'Weigh on a scale with finer steps',
    load: 'Weigh each load a few times more', place: 'Lay the loads more exactly, and measure where they lie',
    gaugeScale: 'Check the gauge against a known length', gaugeZero: 'Read the zero more often',
    gaugeReading: 'Use a gauge with finer steps', typed: 'Look at the u you typed', repeatability: 'Repeat the readings',
    friction: 'Free the suspension, or bounce the car before each reading', modelChoice: 'Add loads between those there are',
    airDensity: 'Read temperature and pressure of the air', anemometer: 'Check the anemometer', airUnevenness: 'Read more points across the jet',
    timing: 'Time it over a longer way', distance: 'Measure the distance of the gates', chassis: 'Measure and weigh the car more exactly',
    holding: 'Look at how the car is held in the jet', control: 'Repeat the control run', picture: 'Mark the picture more exactly',
    tyre: 'Measure how the tyres give way', track: 'Drive more laps, by turns', spring: 'Measure the springs',
    coast: 'Coast more often, both ways', power: 'Run at full throttle once more',
  } satisfies Record<SourceGroup, string>,
}

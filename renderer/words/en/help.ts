import type { KeyName } from '../../shell/keys'

export const help = {
  stepsTitle: 'Each step, how and why', termsTitle: 'Words in plain words', keysTitle: 'Keys', how: 'How', why: 'Why', back: 'Back to {name}', jump: 'On this page',
  steps: {
    chassis: {
      how: 'Type wheelbase, tracks and corner weights. Say where you read heights and how far each end may drop before the tray meets the ground. List your gauge, scale and anemometer with their errors.',
      why: 'Wheelbase and stations turn four heights into two axle lines. Beyond the drop at which the tray touches, a reading stops being a number and becomes “at least”.',
    },
    loads: {
      how: 'Weigh every load on the same scale, twice if you can. Check the scale with a mass you know better than it does.',
      why: 'The scale’s gain is shared by all loads: repeats do not average it out, a check takes it out.',
    },
    squat: {
      how: 'Zero, loads up, loads down, zero again. Let the car come to rest the same way each time. Tick an end when you see its tray on the ground.',
      why: 'The gap between the way up and the way down is the friction of the suspension. A zero that moved tells of a gauge or a car that moved.',
    },
    curve: {
      how: 'Look whether the points follow the line, and what stands under “What to know”. Try a drop to see what force it means, and which part of the doubt is largest.',
      why: 'A straight line is one candidate among six. The readings decide; where they can’t, the doubt goes into the result.',
    },
    airflow: {
      how: 'Read the corners with air off, on, off. Measure the speed at several points across the device without the car. Blow once without the device.',
      why: 'The two offs take the drift out. The run without the device takes out what the jet does to the bodywork. The air is uneven and load goes with speed squared, so the mean of V squared counts.',
    },
    camera: {
      how: 'Phone on a tripod, square to the car, stickers on hub and chassis, a known length beside the wheel. Mark, or let the marks be followed through a clip.',
      why: 'One known length in the plane of the stickers turns pixels into millimetres. Hub to chassis leaves the tyre out.',
    },
    load: {
      how: 'Choose a run. Open “Where does this come from?” to see what to improve first.',
      why: 'The squat in moving air is read back through the curve as a force on each axle, with everything that is not known well.',
    },
    decide: {
      how: 'Compare two set-ups, ask what they do at your speed, where the tray touches, and which spring would hold it off.',
      why: 'Two numbers differ always; whether the set-ups do is another question. Errors that both share cancel in their difference.',
    },
    track: {
      how: 'Drive a circle of known radius before, after, before again, or open an acceleration log. Type every lap.',
      why: 'Grip tells whether the bench promised right. If not, the order of runs, the tyres or the air are looked at first.',
    },
    drag: {
      how: 'Let the car coast down a straight, out and back, past three or more gates; or take the coasts out of a log. Describe your course by its straights and corners.',
      why: 'Downforce is bought with drag. Only on a course do a gain in the corners and a loss on the straight become one number; both ways take wind and slope out.',
    },
    report: {
      how: 'Print it, or take tables and the exchange file.',
      why: 'Two pages say what was found; the annex lets another check it.',
    },
  },
  terms: {
    measurand: { term: 'measurand', says: 'what you want to know, such as the force of the air on the front axle' },
    standardUncertainty: { term: 'standard uncertainty u', says: 'how far off an estimate may well be, as a standard deviation' },
    interval: { term: 'coverage interval', says: 'a range that holds the true value with a stated probability, here 95 %' },
    repeatability: { term: 'repeatability', says: 'how much readings of the same thing differ when nothing else changes' },
    resolution: { term: 'steps of a display', says: 'the smallest change an instrument shows' },
    gain: { term: 'gain', says: 'by what factor an instrument shows too much or too little' },
    budget: { term: 'budget', says: 'the list of what an uncertainty is made of, so that you know what to improve' },
    shared: { term: 'shared error', says: 'an error that is the same in every reading; repeating does not shrink it' },
    atLeast: { term: 'at least', says: 'a lower bound: the tray was on the ground, the true force is above it with 95 % probability' },
    dof: { term: 'degrees of freedom', says: 'how well an uncertainty itself is known; few make intervals wider' },
    wheelRate: { term: 'wheel rate', says: 'force at the wheel for each millimetre of drop' },
    heave: { term: 'heave, pitch, roll', says: 'all four corners down alike; nose down; one side down' },
    clA: { term: 'ClA', says: 'lift coefficient times area: the force divided by the dynamic pressure; here positive presses down' },
    dynamicPressure: { term: 'dynamic pressure', says: 'half the air’s density times speed squared' },
    balance: { term: 'front share', says: 'the part of the downforce that presses on the front axle' },
  },
  licencesTitle: 'Whose work goes along',
  licences: 'Squatbench is written in Sofia Sans and Sofia Sans Semi Condensed of the Sofia Sans Project Authors, with some signs from Noto Sans Math of Google LLC, all under the SIL Open Font License 1.1. Its program libraries are under open licences too.',
  licencesAll: 'All licences, word for word',
  licencesMissing: 'The licences could not be read; they stand in licences.txt beside the program.',
  press: { mod: 'Ctrl', shift: 'Shift', Enter: 'Enter', Escape: 'Esc', PageUp: 'Page up', PageDown: 'Page down', Space: 'Space' },
  keys: {
    enter: 'take the number and go to the next field; with Shift to the one before',
    vertical: 'the same field one row up or down',
    horizontal: 'from the end of a field to its neighbour',
    walk: 'on a chart, through its points',
    escape: 'take the field back to what was kept; close what stands in front',
    undo: 'take the last change back',
    redo: 'do it again',
    digits: 'in the squat test, with the loads in hand: the bag with that digit on or off',
    addStep: 'in the squat test: add the next step, from wherever you are',
    pageBack: 'in bench mode: one place back',
    pageOn: 'in bench mode: one place on',
    mark: 'on a picture: put the mark, then go to the next one',
    snap: 'on a picture: put the mark into the middle of the sticker',
    nudge: 'on a picture: move the mark by 0.1 px, with Shift by 1 px, with Ctrl by 20 px',
    space: 'press the key in hand: pick a load, tick a box',
  } satisfies Record<KeyName, string>,
}

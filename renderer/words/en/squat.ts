export const squat = {
  caution: 'Stand the car on a firm bench with its battery out. Lay loads on slowly, over the chassis, never over your hands or feet. Keep lead shot in closed bags.',
  emptyTitle: 'Press the car down and read how far it goes', empty: 'Read the four corners unloaded, then with each load, up and back down.', start: 'Start a squat test', another: 'Another squat test', which: 'Squat test', name: 'Squat test {count}',
  how: 'How it is done', gauge: 'Gauge', orderLabel: 'Order of loads', order: { upDown: 'up, then back down', upOnly: 'up only', random: 'shuffled' },
  settleLabel: 'Before each reading', settle: { none: 'nothing', tap: 'tap the bench', bounce: 'bounce twice' },
  friction: 'Assumed friction, {axle}', frictionLabel: 'Assumed friction', frictionHow: 'only where no unloading is read', wished: 'Good enough', wishedForce: 'Good enough: at a force of', wishedWidth: '… within ±',
  readings: 'What the gauge shows, {unit}', step: 'Step', stepNo: 'Step {count}', zeroStep: 'Zero', touched: 'Tray on the ground', putAside: 'Put aside', takeBack: 'Take back', retyped: 'typed again',
  place: 'Next step: what lies on the car', weighFirst: 'Weigh some loads first.', x: 'x behind front axle', y: 'y to the right', uPlace: 'place u',
  add: { loading: 'Step with these loads (more)', unloading: 'Step with these loads (less)', zero: 'Take all off: zero' },
  readCorners: 'Read: {corners}.', moreLoads: 'Lay on a load, let it settle, add a step.', nowDown: 'Now take loads off one by one: coming back down shows the friction.', nowZero: 'Take everything off and read the zero again.', enough: 'Enough for a curve. More repeats make the interval shorter.',
  pictureShows: 'Drop at each corner in the step in hand.', soFar: 'So far', good: 'Good enough for what you wished.', notYet: 'Not yet as good as you wished.', nextLoad: 'Most useful next load: {load}.',
  benchMode: 'Bench mode', before: 'Before', after: 'Next', benchKeys: 'Enter: take it and go on. Page up, page down: move between corners. Escape: back.',
}

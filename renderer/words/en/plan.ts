export const plan = {
  title: 'Plan the next comparison', how: 'Blocks of A B B A and B A A B, drawn by lot: a steady drift of tyres, surface or battery cancels within each block.',
  before: 'Without', after: 'With', wished: 'Gain to be found', draw: 'Draw an order',
  needed: '{runs} runs in {blocks} blocks: a gain of that size is found with a chance of {power}.', nearlySure: 'over 99 %', outOfReach: 'More than 48 runs would be needed: make the runs more alike, or look for a larger gain.',
  own: 'By your own scatter from run to run, {scatter}.', usual: 'Taken with a usual scatter from run to run, {scatter}: drive some pairs, and yours counts.',
  detectable: 'Found in 8 of 10 cases, by number of runs: {list}.', order: 'Drive in this order:', driven: 'driven: {run}', begun: 'begun: {run}, its laps are still missing', strayed: 'driven with {name} instead: {run}', next: 'next',
  lead: '{driven} of {of} driven. Next by the plan: {name}. Fit it, let the tyres come back to where the last run began, then drive.', begin: 'Begin this circle run', done: 'The whole order is driven: what it tells stands under the runs, by pairs of neighbours.', doneStrayed: 'All places are taken, {count} of them with another set-up than planned: the drift may no longer cancel.',
  note: 'Note the tyres’ temperature at each start: it can then be told from the device.',
}

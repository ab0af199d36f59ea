export const report = {
  emptyTitle: 'Nothing to print yet', empty: 'Readings and results of this car go on paper here.', wholeCar: 'The whole car', about: 'About', against: 'against',
  print: 'Print…', tables: 'Tables (CSV)', tablesIn: 'The tables lie in {folder}.', exchange: 'Exchange file', preview: 'The report as it will be printed',
  how: 'The page holds the answer at the speed you asked for; the annex, a document of its own, has method, readings, fits, budget, limits and cautions. Units as you chose them.',
  which: 'Paper', part: { page: 'the page', annex: 'annex' },
}

export const report = {
  emptyTitle: 'Nothing to print yet', empty: 'Readings and results of this car go on paper here.', wholeCar: 'The whole car', about: 'About', against: 'against',
  print: 'Print…', tables: 'Tables (CSV)', tablesIn: 'The tables lie in {folder}.', exchange: 'Exchange file', preview: 'The report as it will be printed',
  how: 'Two pages in short, the rest as annex: method, readings, fits, budget, limits, cautions. Units as you chose them.',
}

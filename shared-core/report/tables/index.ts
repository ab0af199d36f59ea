/** All tables of a chassis: what was read, and what follows from it. */
import type { Analysis } from '@core/analysis'
import type { Exchange } from '@core/schema'
import type { CsvTable } from './csv'
import {
  airReadingsTable, coastReadingsTable, loadsTable, squatReadingsTable, trackReadingsTable, traverseTable,
} from './readingTables'
import { columnTables, costTables, curvesTable, staticTable, trackTables } from './resultTables'

/** Tables of what was read or entered; empty ones are left out. */
export const readingTables = (exchange: Exchange): CsvTable[] =>
  [loadsTable, squatReadingsTable, airReadingsTable, traverseTable, trackReadingsTable, coastReadingsTable]
    .map((make) => make(exchange)).filter(({ rows }) => rows.length > 0)

/** Tables of results; empty ones are left out. */
export const resultTables = (exchange: Exchange, analysis: Analysis): CsvTable[] => [
  curvesTable(analysis), ...columnTables(exchange, analysis), ...trackTables(exchange, analysis),
  ...costTables(exchange, analysis), staticTable(analysis),
].filter(({ rows }) => rows.length > 0)

export { csvText, type CsvCell, type CsvTable } from './csv'

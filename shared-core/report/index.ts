/** The face of the report room: results as a printable document and as tables. */
export { reportHtml } from './document'
export type { ReportFace } from './faces'
export { voiceOf, type ReportInput, type Voice } from './paper'
export { answerLines, type AnswerLines } from './answerLines'
export { canonicalJson, fingerprint } from './fingerprint'
export * from './columns'
export * from './words'
export { csvText, readingTables, resultTables, type CsvCell, type CsvTable } from './tables'

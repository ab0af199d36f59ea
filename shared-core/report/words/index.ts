/** The words of report and remarks alone, for those who need no report. */
export { REPORT_DE } from './de'
export { REPORT_EN, type ReportKey } from './en'
export { REMARKS_DE } from './remarksDe'
export { REMARKS_EN } from './remarksEn'
export { ENGLISH, GERMAN, LANGUAGES, remarkIn, sayIn, whyIn, type Language, type Say } from './say'
export { REASONS_DE, UNFITTED_DE, UNTOLD_DE } from './whyDe'
export { REASONS_EN, UNFITTED_EN, UNTOLD_EN } from './whyEn'

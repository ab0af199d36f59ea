/** Remarks of the core in words: one list, which the window and the report share. */
export { REMARKS_DE as remarks } from '@core/report/words'

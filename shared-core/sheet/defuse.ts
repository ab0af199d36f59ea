/** Texts that a spreadsheet would take for a formula, and the way back. */

/** What a sheet may split a line or a file at. */
const SPLIT = String.raw`[;,|\t\v\f\r\n\u0085\u2028\u2029]`
/** What a sheet takes for the beginning of a formula, in full width too, after blanks and signs that nobody sees. */
const FORMULA = String.raw`(?=(?:(?!${SPLIT})[\s\p{C}])*[=+\-@\uff1d\uff0b\uff0d\uff20])`
const LIVE = new RegExp(`(^|${SPLIT})('*)${FORMULA}`, 'gu')
const DEFUSED = new RegExp(`(^|${SPLIT})'('*)${FORMULA}`, 'gu')

/** A text with an apostrophe wherever a sheet would begin to run it. */
export const defused = (text: string): string => text.replace(LIVE, "$1'$2")

/** The text that stood in a cell of ours, read from its file: without the apostrophes that defuse it. */
export const textOfCell = (cell: string): string => cell.replace(DEFUSED, '$1$2')

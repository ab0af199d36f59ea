/** The face of the units room: conversion happens here, at the edges, and nowhere else. */
export {
  fromKept, quantityOf, STANDARD_GRAVITY_MS2, stepFromKept, stepToKept, symbolOf, toKept, typedSymbols, UNIT_NAMES,
  unitsOf, type Quantity, type Unit,
} from './quantities'
export {
  CHOICES, DECIMAL_MARKS, DEFAULT_UNITS, unitFor, type DecimalMark, type UnitChoice, type UnitKind,
} from './choice'
export { parseTyped, type Typed, type TypedProblem, type TypingHabit } from './typed'
export { decimalsFor, fixedText, nearest, roundByUncertainty, type Rounded } from './round'
export {
  formatAsRead, formatBound, formatEnds, formatQuantity, formatShort, groupedCount, withSymbol, type Formatted, type
  FormatOptions,
} from './format'
export { endsWithin, fieldDecimals, readingDecimals, RULE_STEP_MM, shortDecimals, stepDecimals } from './fieldDecimals'

/** A word function: the report is written with keys, and any language that has them can speak it. */
import type { Remark } from '@core/calibration'
import { REMARKS_EN } from './remarksEn'
import { REPORT_EN, type ReportKey } from './en'

export type Values = Readonly<Record<string, string | number>>

/** Speaks one sentence. */
export type Say = (key: ReportKey, values?: Values) => string

/** A language: its tag, its sentences, its remarks. What is missing stands in English. */
export interface Language {
  readonly tag: string
  readonly sentences: Readonly<Partial<Record<ReportKey, string>>>
  readonly remarks: Readonly<Record<string, string>>
}

export const ENGLISH: Language = { tag: 'en', sentences: REPORT_EN, remarks: REMARKS_EN }

const fill = (sentence: string, values: Values): string =>
  sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole))

export const sayIn = (language: Language): Say => (key, values = {}) =>
  fill(language.sentences[key] ?? REPORT_EN[key], values)

/** A remark as a sentence; one without words shows its code and its values, so that nothing is hidden. */
export function remarkIn(language: Language, remark: Remark, values: Values): string {
  const sentence = language.remarks[remark.code] ?? REMARKS_EN[remark.code]
  if (sentence) return fill(sentence, values)
  const parts = Object.entries(values).filter(([, value]) => value !== '').map(([name, value]) => `${name} ${value}`)
  return [remark.code, ...parts].join(', ')
}

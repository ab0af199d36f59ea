/** A word function: the report is written with keys, and any language that has them can speak it. */
import type { Remark } from '@core/calibration'
import { REPORT_DE } from './de'
import { REPORT_EN, type ReportKey } from './en'
import { REMARKS_DE } from './remarksDe'
import { REMARKS_EN } from './remarksEn'

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
export const GERMAN: Language = { tag: 'de', sentences: REPORT_DE, remarks: REMARKS_DE }

/** The languages by the name a builder chooses them with. */
export const LANGUAGES = { en: ENGLISH, de: GERMAN } as const

const fill = (sentence: string, values: Values): string =>
  sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole))

export const sayIn = (language: Language): Say => (key, values = {}) =>
  fill(language.sentences[key] ?? REPORT_EN[key], values)

/** A remark as a sentence; one without words shows its code and its values, so that nothing is hidden. */
export function remarkIn(language: Language, remark: Remark, values: Values): string {
  const sentence = language.remarks[remark.code] ?? ENGLISH.remarks[remark.code]
  if (sentence) return fill(sentence, values)
  const parts = Object.entries(values).filter(([, value]) => value !== '').map(([name, value]) => `${name} ${value}`)
  return [remark.code, ...parts].join(', ')
}

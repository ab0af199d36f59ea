/** A word function: the report is written with keys, and any language that has them can speak it. */
import type { Remark } from '@core/calibration'
import type { CensorReason, Statement, UntoldCode } from '@core/uncertainty'
import { REPORT_DE } from './de'
import { REPORT_EN, type ReportKey } from './en'
import { REMARKS_DE } from './remarksDe'
import { REMARKS_EN } from './remarksEn'
import { REASONS_DE, UNTOLD_DE } from './whyDe'
import { REASONS_EN, UNTOLD_EN } from './whyEn'

export type Values = Readonly<Record<string, string | number>>

/** Speaks one sentence. */
export type Say = (key: ReportKey, values?: Values) => string

/** A language, complete: its tag, its sentences, why something is a bound or can't be told, its remarks. */
export interface Language {
  readonly tag: string
  readonly sentences: Readonly<Record<ReportKey, string>>
  readonly reasons: Readonly<Record<CensorReason, string>>
  readonly untold: Readonly<Record<UntoldCode, string>>
  readonly remarks: Readonly<Record<string, string>>
}

export const ENGLISH: Language =
  { tag: 'en', sentences: REPORT_EN, reasons: REASONS_EN, untold: UNTOLD_EN, remarks: REMARKS_EN }
export const GERMAN: Language =
  { tag: 'de', sentences: REPORT_DE, reasons: REASONS_DE, untold: UNTOLD_DE, remarks: REMARKS_DE }

/** The languages by the name a builder chooses them with. */
export const LANGUAGES = { en: ENGLISH, de: GERMAN } as const

const fill = (sentence: string, values: Values): string =>
  sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole))

export const sayIn = (language: Language): Say => (key, values = {}) =>
  fill(language.sentences[key], values)

/** Why a result is no plain interval. */
export function whyIn({ sentences, reasons, untold }: Language, said: Exclude<Statement, { kind: 'interval' }>): string {
  if (said.kind !== 'untold') return reasons[said.reason]
  const { because } = said
  return fill(untold[because.code], 'axle' in because ? { axle: sentences[`axle_${because.axle}`] } : {})
}

/** A remark as a sentence; one without words shows its code and its values, so that nothing is hidden. */
export function remarkIn(language: Language, remark: Remark, values: Values): string {
  const sentence = language.remarks[remark.code] ?? ENGLISH.remarks[remark.code]
  if (sentence) return fill(sentence, values)
  const parts = Object.entries(values).filter(([, value]) => value !== '').map(([name, value]) => `${name} ${value}`)
  return [remark.code, ...parts].join(', ')
}

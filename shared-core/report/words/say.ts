/** A word function: the report is written with keys, and any language that has them can speak it. */
import type { Shape } from '@core/calibration'
import { valuesOf, type About, type Remark, type RemarkCode } from '@core/remark'
import type { Axle } from '@core/schema'
import type { CensorReason, Statement, UntoldCode } from '@core/uncertainty'
import type { Quantity } from '@core/units'
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
  readonly remarks: Readonly<Record<RemarkCode, string>>
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

/** How figures are written, and what the builder calls the step or run that a remark is about. */
export interface Figures {
  /** `u` is its standard uncertainty, or null where none is told. */
  readonly figure: (value: number, quantity: Quantity, u: number | null) => string
  /** A reading as it was read, mm. */
  readonly shown: (value: number) => string
  readonly nameOf: (about: About) => string
}

/** A remark as a sentence. */
export function remarkIn(language: Language, remark: Remark, { figure, shown: asRead, nameOf }: Figures): string {
  const { sentences } = language
  const shown = valuesOf(remark).map(({ name, kind, value, u }) => {
    if (typeof value === 'number') return [name, kind === 'shown' ? asRead(value) : figure(value, kind as Quantity, u)]
    if (kind === 'axle') return [name, sentences[`axle_${value as Axle}`]]
    return [name, kind === 'shape' ? sentences[`shapeName_${value as Shape}`] : value]
  })
  const { about } = remark
  const place = about && { step: nameOf(about), corner: 'corner' in about ? sentences[about.corner] : '' }
  return fill(language.remarks[remark.code], { ...Object.fromEntries(shown) as Values, ...place })
}

/** What every part of the report writes with: the words, the units, and the results. */
import type { Analysis } from '@core/analysis'
import type { About, Remark } from '@core/remark'
import type { Exchange } from '@core/schema'
import type { Statement, Uncertain } from '@core/uncertainty'
import { standardUncertainty } from '@core/uncertainty'
import {
  endsWithin, formatAsRead, formatBound, formatEnds, formatQuantity, formatShort, fromKept, readingDecimals,
  symbolOf, unitFor, type Quantity, type UnitChoice,
} from '@core/units'
import type { ReportFace } from './faces'
import { html, type Markup } from './html'
import { remarkIn, sayIn, whyIn, type Language, type Say } from './words'

export interface ReportInput {
  readonly exchange: Exchange
  readonly analysis: Analysis
  readonly about: {
    readonly version: string
    /** Moment of making, ISO 8601 UTC: the caller has the clock. */
    readonly madeAt: string
    readonly fingerprint: string
  }
  readonly units: UnitChoice
  readonly language: Language
  /** What it is written in; those it needs stand in the document. */
  readonly faces: readonly ReportFace[]
  /** The page to hand round, or the annex to it. */
  readonly part: 'page' | 'annex'
  /** The whole chassis, or two of its set-ups. */
  readonly scope: { readonly kind: 'chassis' } | { readonly kind: 'comparison'; readonly a: string; readonly b: string }
}

/** Words and figures in a builder's language and units. */
export interface Voice {
  readonly say: Say
  /** A kept value with its unit; digits by `u` where there is one. */
  readonly show: (kept: number, quantity: Quantity, options?: SaidOptions & { u?: number; decimals?: number }) => string
  readonly showUncertain: (value: Uncertain, quantity: Quantity) => string
  /** What may be said, on one line: bounds keep their words. */
  readonly said: (statement: Statement, quantity: Quantity, options?: SaidOptions) => string
  /** The interval, or why it is none. */
  readonly detail: (statement: Statement, quantity: Quantity, options?: SaidOptions) => string
  /** Value or bound without the interval, for drawings that show it. */
  readonly main: (statement: Statement, quantity: Quantity, options?: SaidOptions) => string
  /** The same for a table cell: the interval, or the reason, on a second line; a guess has its mark. */
  readonly cell: (statement: Statement, quantity: Quantity, options?: SaidOptions) => Markup
  /** A chosen or exact value, or a figure in a sentence: three significant digits at the most, whole numbers whole. */
  readonly short: (kept: number, quantity: Quantity, options?: { step?: boolean }) => string
  /** A reading with every digit it was read with, and no fewer than the step of its gauge, mm, has. */
  readonly reading: (keptMm: number, stepMm?: number) => string
  /** A plain number's text with the builder's decimal mark. */
  readonly plain: (text: string | number) => string
  readonly symbol: (quantity: Quantity) => string
  readonly number: (kept: number, quantity: Quantity) => number
  readonly remark: (remark: Remark) => string
  readonly why: (statement: Parameters<typeof whyIn>[1]) => string
  readonly nameOf: (configurationId: string) => string
}

export interface Paper extends ReportInput, Voice {}

/** Stands beside figures outside the range that was read; the page says so. */
export const GUESS = '†'

interface SaidOptions { readonly signed?: boolean; readonly step?: boolean }

export const paperOf = (input: ReportInput): Paper => ({ ...input, ...voiceOf(input) })

export function voiceOf({ units, language, exchange }: Pick<ReportInput, 'units' | 'language' | 'exchange'>): Voice {
  const say = sayIn(language)
  const mark = { decimalMark: units.decimalMark }
  const show: Paper['show'] = (kept, quantity, options = {}) =>
    formatQuantity(kept, unitFor(quantity, units), { ...options, ...mark }).text
  const main = (statement: Statement, quantity: Quantity, options: SaidOptions = {}): string => {
    const unit = unitFor(quantity, units)
    const bound = (kept: number, side: 'atLeast' | 'atMost') => formatBound(kept, unit, side, { ...mark, ...options })
    switch (statement.kind) {
      case 'interval': return formatQuantity(statement.value, unit, { u: statement.u, ...mark, ...options }).text
      case 'atLeast': return say('atLeast', { value: bound(statement.bound, 'atLeast') })
      case 'atMost': return say('atMost', { value: bound(statement.bound, 'atMost') })
      case 'between':
        return say('between', { low: bound(statement.low, 'atLeast'), high: bound(statement.high, 'atMost') })
      case 'untold': return say('untold')
    }
  }
  const detail = (statement: Statement, quantity: Quantity, options: SaidOptions = {}): string => {
    if (statement.kind !== 'interval') return whyIn(language, statement)
    const { low, high } = statement.interval
    return say('ends', formatEnds(low, high, unitFor(quantity, units), { u: statement.u, ...mark, ...options }))
  }
  const guess = (statement: Statement, text: string): string =>
    (statement.kind === 'interval' && statement.extrapolated ? text : '')
  const plain = (text: string | number): string =>
    String(text).replace(/^-/, '\u2212').replace('.', units.decimalMark === 'comma' ? ',' : '.')
  const short: Paper['short'] = (kept, quantity, { step = false } = {}) => {
    return formatShort(kept, unitFor(quantity, units), { step, ...mark }).text
  }
  const reading: Paper['reading'] = (keptMm, stepMm) => {
    const unit = unitFor('length', units)
    const aligned = stepMm === undefined ? null : readingDecimals(stepMm, unit)
    return aligned !== null && endsWithin(fromKept(keptMm, unit), aligned)
      ? show(keptMm, 'length', { decimals: aligned }) : formatAsRead(keptMm, unit, mark).text
  }
  return {
    say, show, plain, short, reading,
    showUncertain: (value, quantity) => {
      const u = standardUncertainty(value)
      const { value: text, u: uText, symbol } = formatQuantity(value.value, unitFor(quantity, units), { u, ...mark })
      return u > 0 ? `${text} (u ${uText ?? ''}) ${symbol}`.trim() : show(value.value, quantity)
    },
    said: (statement, quantity, options) =>
      `${main(statement, quantity, options)} (${detail(statement, quantity, options)}${guess(statement, `; ${say('guess')}`)})`,
    main,
    detail,
    cell: (statement, quantity, options) => html`<span class="${statement.kind === 'interval' ? 'value' : 'value bound'}">${
      main(statement, quantity, options)}</span>${guess(statement, ` ${GUESS}`)}<br><span class="ends">${detail(statement, quantity, options)}</span>`,
    symbol: (quantity) => symbolOf(unitFor(quantity, units)),
    number: (kept, quantity) => fromKept(kept, unitFor(quantity, units)),
    remark: (remark) => remarkIn(language, remark, {
      shown: (value) => reading(value),
      figure: (value, quantity, u) =>
        (u === null ? short(value, quantity, { step: true }) : show(value, quantity, { u, step: true })),
      nameOf: (about) => nameOfAbout(exchange, about),
    }),
    why: (statement) => whyIn(language, statement),
    nameOf: (id) => exchange.chassis.configurations.find((each) => each.id === id)?.name ?? id,
  }
}

/** What the builder calls the step, run or state that a remark is about. */
function nameOfAbout({ sessions }: Exchange, about: About): string {
  for (const session of sessions) {
    if (session.kind === 'squat') {
      const index = session.steps.findIndex(({ id }) => 'stepId' in about && id === about.stepId)
      if (index >= 0) return String(index + 1)
      continue
    }
    for (const run of session.runs) {
      if (about.kind === 'run' && run.id === about.runId) return run.name
      const state = 'states' in run && 'stepId' in about ? run.states.findIndex(({ id }) => id === about.stepId) : -1
      if (state >= 0) return `${run.name}, ${state + 1}`
    }
  }
  return ''
}

/** A remark of the core as a sentence in the builder's words and units. */
import type { Remark } from '@core/calibration'
import { useI18n } from 'vue-i18n'
import { usePreferences } from '../stores/preferences'
import { quantityOfKey } from './remarkValues'

export const REMARK_MARK = { note: 'i', warning: '!', stop: '■' } as const

/** The gravest remarks first, else in their order. */
export function byGravity(remarks: readonly Remark[]): Remark[] {
  const rank = { stop: 0, warning: 1, note: 2 }
  return [...remarks].sort((a, b) => rank[a.severity] - rank[b.severity])
}

/** Figures of a gauge: what it showed is said with all its digits. */
const AS_SHOWN: readonly string[] = ['shownMm', 'suggestedMm']
const MOST_DECIMALS = 4

/** Call in a component's setup. What comes of it makes the sentence; `stepNames` name steps by their id. */
export function useRemarkSentence(): (remark: Remark, stepNames?: Readonly<Record<string, string>>) => string {
  const { t, te } = useI18n()
  const preferences = usePreferences()

  /** An axle or a shape by its word, any other text as it is. */
  function wordOf(value: string): string {
    const key = [`parts.axleInRemark.${value}`, `curve.shape.${value}`].find((each) => te(each))
    return key ? t(key) : value
  }
  function figure(key: string, value: number): string {
    const quantity = quantityOfKey(key)
    if (!quantity) return String(Math.round(value * 1000) / 1000)
    if (!AS_SHOWN.includes(key)) return preferences.show(value, quantity, { u: Math.abs(value) / 20, step: true })
    const typed = String(value).split('.')[1]?.length ?? 0
    return preferences.show(value, quantity, { decimals: preferences.chosen.length === 'millimetre' ? Math.min(typed, MOST_DECIMALS) : MOST_DECIMALS })
  }
  return (remark, stepNames = {}) => {
    const shown = Object.fromEntries(Object.entries(remark.values)
      .map(([key, value]) => [key, typeof value === 'string' ? wordOf(value) : figure(key, value)]))
    const step = remark.stepId ? stepNames[remark.stepId] ?? remark.stepId : ''
    const corner = remark.corner ? t(`parts.corner.${remark.corner}`) : ''
    if (te(`remarks.${remark.code}`)) return t(`remarks.${remark.code}`, { ...shown, step, corner })
    return [remark.code, step, corner, ...Object.entries(shown).map(([key, value]) => `${key} ${value}`)].filter(Boolean).join(', ')
  }
}

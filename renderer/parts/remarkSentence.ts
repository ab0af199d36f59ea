/** A remark of the core as a sentence in the builder's words and units. */
import { valuesOf, type Remark, type ValueKind } from '@core/remark'
import { useI18n } from 'vue-i18n'
import { usePreferences } from '../stores/preferences'

export const REMARK_MARK = { note: 'i', warning: '!', stop: '■' } as const

/** Call in a component's setup. What comes of it makes the sentence; `names` name steps and runs by their id. */
export function useRemarkSentence(): (remark: Remark, names?: Readonly<Record<string, string>>) => string {
  const { t } = useI18n()
  const preferences = usePreferences()

  function shown(kind: ValueKind, value: string | number, u: number | null): string {
    if (typeof value === 'string') {
      if (kind === 'axle') return t(`parts.axleInRemark.${value}`)
      return kind === 'shape' ? t(`curve.shape.${value}`) : value
    }
    if (kind === 'number' || kind === 'text' || kind === 'axle' || kind === 'shape') {
      return Number.isInteger(value) ? String(value) : preferences.short(value, 'number')
    }
    if (kind === 'shown') return preferences.asRead(value, 'length')
    return u === null
      ? preferences.short(value, kind, { step: true })
      : preferences.show(value, kind, { u, step: true })
  }
  return (remark, names = {}) => {
    const { about } = remark
    const values = Object.fromEntries(valuesOf(remark).map(({ name, kind, value, u }) => [name, shown(kind, value, u)]))
    const id = about && ('stepId' in about ? about.stepId : about.kind === 'run' ? about.runId : null)
    const corner = about && 'corner' in about ? t(`parts.corner.${about.corner}`) : ''
    return t(`remarks.${remark.code}`, { ...values, step: id ? names[id] ?? '' : '', corner })
  }
}

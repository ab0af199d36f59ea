/** A refused cell in words: where it is, what is wrong with it, what to do. */
import { quantityOfField, type CellProblem } from '@core/sheet'
import type { usePreferences } from '../stores/preferences'

type Say = (key: string, values?: Record<string, unknown>) => string

const TYPED: readonly string[] = [
  'empty', 'notANumber', 'ambiguousThousands', 'spaceInNumber', 'unknownUnit', 'tooLarge',
]

/** One sentence on a problem, in the builder's language and units. */
export function faultSentence(problem: CellProblem, t: Say, preferences: ReturnType<typeof usePreferences>): string {
  const { row, column, field, fault, typed, values } = problem
  const where = t('sheet.where', { row, column, field: field ? t(`sheet.field.${field}`) : '' })
  return `${where}: ${what()}`

  function what(): string {
    if (TYPED.includes(fault)) return t(`parts.field.${fault}`, { typed, ...values })
    const quantity = field && quantityOfField(field)
    if (fault === 'low' || fault === 'high') {
      return t(`parts.field.${fault}`, { limit: preferences.short(Number(values['limit']), quantity ?? 'number') })
    }
    if (fault === 'noSuchMass') {
      const [low, high] = [Number(values['lowKg']), Number(values['highKg'])]
      return t('sheet.fault.noSuchMass', { typed, low: preferences.show(low, 'mass', { u: 0.001 }), high: preferences.show(high, 'mass', { u: 0.001 }) })
    }
    return t(`sheet.fault.${fault}`, { ...values, typed })
  }
}

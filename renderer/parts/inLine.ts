/** A statement within a sentence: its value with its interval, or its bound with its words. */
import type { Statement } from '@core/uncertainty'
import type { Quantity } from '@core/units'
import type { usePreferences } from '../stores/preferences'

interface Context {
  readonly t: (key: string, values?: Record<string, unknown>) => string
  readonly preferences: ReturnType<typeof usePreferences>
}

export function inLine(said: Statement, quantity: Quantity, { t, preferences }: Context, signed = false): string {
  const bound = (value: number, side: 'atLeast' | 'atMost'): string => preferences.bound(value, quantity, side, { signed })
  switch (said.kind) {
    case 'interval': {
      const { low, high } = preferences.ends(said.interval.low, said.interval.high, quantity, { signed, u: said.u })
      return `${preferences.show(said.value, quantity, { signed, u: said.u })} (${t('parts.ends', { low, high })})`
    }
    case 'atLeast': return `${t('parts.atLeast')} ${bound(said.bound, 'atLeast')}`
    case 'atMost': return `${t('parts.atMost')} ${bound(said.bound, 'atMost')}`
    case 'between': return t('parts.between', { low: bound(said.low, 'atLeast'), high: bound(said.high, 'atMost') })
    case 'untold': return t('parts.untold')
  }
}

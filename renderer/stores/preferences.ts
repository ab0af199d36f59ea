/** How this builder wants things shown; applied at once, saved behind the scenes. */
import { DEFAULT_PREFERENCES, type Preferences } from '@core/services'
import {
  formatAsRead, formatBound, formatEnds, formatQuantity, formatShort, parseTyped, readingDecimals, stepDecimals,
  symbolOf, unitFor, type FormatOptions, type Quantity,
} from '@core/units'
import { defineStore } from 'pinia'
import { computed, ref, watch } from 'vue'
import { call } from '../client'
import { setLanguage } from '../words'

export const usePreferences = defineStore('preferences', () => {
  const chosen = ref<Preferences>({ ...DEFAULT_PREFERENCES })
  const systemDark = matchMedia('(prefers-color-scheme: dark)')
  const systemIsDark = ref(systemDark.matches)
  systemDark.addEventListener('change', (event) => { systemIsDark.value = event.matches })

  const theme = computed(() => {
    if (chosen.value.theme !== 'system') return chosen.value.theme
    return systemIsDark.value ? 'dark' : 'light'
  })
  watch(theme, (name) => { document.documentElement.dataset['theme'] = name }, { immediate: true })
  watch(() => chosen.value.language, (language) => setLanguage(language))

  async function read(): Promise<void> {
    const answer = await call('preferences.read', {})
    if (answer.ok) chosen.value = answer.value
  }

  async function change(part: Partial<Preferences>): Promise<void> {
    chosen.value = { ...chosen.value, ...part }
    await call('preferences.save', { ...chosen.value })
  }

  /** A kept SI value as text in the builder's unit, with the unit. */
  function show(kept: number, quantity: Quantity, options: FormatOptions = {}): string {
    return parts(kept, quantity, options).text
  }

  /** Digits after the decimal mark with which an instrument's step is told in the builder's unit. */
  const decimalsTo = (stepKept: number, quantity: Quantity): number =>
    stepDecimals(stepKept, unitFor(quantity, chosen.value))

  /** Digits with which all readings of a gauge stand in the builder's unit, so that they line up. */
  const readingDigits = (stepKept: number, quantity: Quantity): number =>
    readingDecimals(stepKept, unitFor(quantity, chosen.value))

  /** A reading of an instrument, to the step of its display whatever the unit. */
  const shownTo = (kept: number, quantity: Quantity, stepKept: number): string =>
    show(kept, quantity, { decimals: decimalsTo(stepKept, quantity) })

  /** What was typed or read, whole: all its digits where it was read in this unit, else enough to tell it. */
  const asRead = (kept: number, quantity: Quantity): string =>
    formatAsRead(kept, unitFor(quantity, chosen.value), { decimalMark: chosen.value.decimalMark }).text

  /** What was wished or chosen, or only converted: three significant digits at the most, without an empty end. */
  const short = (kept: number, quantity: Quantity, options: { readonly step?: boolean } = {}): string =>
    formatShort(kept, unitFor(quantity, chosen.value), { ...options, decimalMark: chosen.value.decimalMark }).text

  /** A plain number with so many digits after the decimal mark. */
  const plain = (value: number, decimals: number): string => show(value, 'number', { decimals })

  /** Parts of the same text, for places that set them apart. */
  function parts(kept: number, quantity: Quantity, options: FormatOptions = {}) {
    return formatQuantity(kept, unitFor(quantity, chosen.value), { ...options, decimalMark: chosen.value.decimalMark })
  }

  function ends(low: number, high: number, quantity: Quantity, options: FormatOptions = {}) {
    return formatEnds(low, high, unitFor(quantity, chosen.value), { ...options, decimalMark: chosen.value.decimalMark })
  }

  /** A one-sided bound, rounded outward so that "at least" and "at most" stay true. */
  function bound(kept: number, quantity: Quantity, side: 'atLeast' | 'atMost', options: FormatOptions = {}): string {
    const { decimalMark } = chosen.value
    return formatBound(kept, unitFor(quantity, chosen.value), side, { ...options, decimalMark })
  }

  const symbol = (quantity: Quantity): string => symbolOf(unitFor(quantity, chosen.value))

  const readTyped = (text: string, quantity: Quantity) =>
    parseTyped(text, unitFor(quantity, chosen.value), { decimalMark: chosen.value.decimalMark })

  return {
    chosen, theme, read, change, show, decimalsTo, readingDigits, shownTo, asRead, short, plain, parts, ends, bound,
    symbol, readTyped,
  }
})

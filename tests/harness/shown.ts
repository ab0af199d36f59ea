/** The window's formatter outside a window: how a builder wants things shown. */
import type { Preferences } from '@core/services'
import { usePreferences } from '@renderer/stores/preferences'
import { createPinia, setActivePinia } from 'pinia'
import { vi } from 'vitest'

/** The store of the preferences with some of them chosen. */
export function shownWith(chosen: Partial<Preferences>): ReturnType<typeof usePreferences> {
  vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined }))
  vi.stubGlobal('document', { documentElement: { dataset: {}, lang: '' } })
  const pinia = createPinia()
  setActivePinia(pinia)
  const preferences = usePreferences(pinia)
  preferences.chosen = { ...preferences.chosen, ...chosen }
  return preferences
}

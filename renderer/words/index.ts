/**
 * All words of the window in one catalogue. A room adds its words as one file under `en/`, keyed by
 * its name; the same key exists in every language, and where a sentence is missing English stands.
 */
import { createI18n } from 'vue-i18n'
import { en } from './en'

export const words = createI18n({ legacy: false, locale: 'en', fallbackLocale: 'en', messages: { en } })

/** Switches the language of the window; others than English are fetched when first chosen. */
export async function setLanguage(language: 'en' | 'de'): Promise<void> {
  if (language === 'de') {
    const { de } = await import('./de')
    words.global.setLocaleMessage('de', de as never)
  }
  words.global.locale.value = language as never
  document.documentElement.lang = language
}

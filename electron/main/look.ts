/** How the frame follows the builder's preferences: language of its words, light or dark. */
import { nativeTheme } from 'electron'
import { DEFAULT_PREFERENCES } from '@core/services'
import type { Preferences } from '@core/services'
import { frameWords } from './words'
import type { FrameWords } from './words'

let language = DEFAULT_PREFERENCES.language

/** The frame's words in the language chosen last. */
export const words = (): FrameWords => frameWords(language)

/** Takes preferences over; title bars, menus and the system's dialogs follow the theme from now on. */
export function follow(preferences: Preferences): void {
  language = preferences.language
  nativeTheme.themeSource = preferences.theme
}

/** The page's ground (`--paper` of `renderer/look/tokens.css`), shown until the page is drawn. */
export const PAPER = { light: '#f3f0e8', dark: '#191a1a' } as const

/** The ground in the theme of now. */
export const paper = (): string => (nativeTheme.shouldUseDarkColors ? PAPER.dark : PAPER.light)

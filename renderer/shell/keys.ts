/**
 * Every key the window listens to, in one list: what is pressed, and where it is heard. Handlers are made from it by
 * what they do, the help page lists it, and a test sees that no two keys clash. Words stand in `help.keys`.
 */
import { PAGE_KEYS, type Press } from '@core/services'

/** Where a key is heard: `squat` is the whole squat test, `bench` its bench mode, the others what has the focus. */
export type KeyPlace = 'window' | 'squat' | 'bench' | 'field' | 'loads' | 'picture' | 'chart'

interface Key {
  readonly press: readonly Press[]
  readonly at: KeyPlace
}

const plain = (...keys: string[]): Press[] => keys.map((key) => ({ key }))
const SIDEWAYS = plain('ArrowLeft', 'ArrowRight')
const UPRIGHT = plain('ArrowUp', 'ArrowDown')
const ARROWS = [...SIDEWAYS, ...UPRIGHT]

export const KEYS = {
  enter: { press: [{ key: 'Enter' }, { key: 'Enter', shift: true }], at: 'field' },
  vertical: { press: UPRIGHT, at: 'field' },
  horizontal: { press: SIDEWAYS, at: 'field' },
  walk: { press: SIDEWAYS, at: 'chart' },
  escape: { press: plain('Escape'), at: 'field' },
  undo: { press: PAGE_KEYS.undo, at: 'window' },
  redo: { press: PAGE_KEYS.redo, at: 'window' },
  digits: { press: plain('1', '2', '3', '4', '5', '6', '7', '8', '9', '0'), at: 'loads' },
  addStep: { press: [{ key: 'Enter', mod: true }], at: 'squat' },
  pageBack: { press: plain('PageUp'), at: 'bench' },
  pageOn: { press: plain('PageDown'), at: 'bench' },
  mark: { press: plain('Enter'), at: 'picture' },
  snap: { press: plain('s'), at: 'picture' },
  nudge: {
    press: ARROWS.flatMap((each) => [each, { ...each, shift: true } as const, { ...each, mod: true } as const]), at: 'picture',
  },
  space: { press: plain(' '), at: 'window' },
} as const satisfies Record<string, Key>

export type KeyName = keyof typeof KEYS
export const KEY_NAMES = Object.keys(KEYS) as KeyName[]

/** True where this event is that key: Ctrl and the command key are one, and Alt makes another of it. */
export const isKey = (event: KeyboardEvent, name: KeyName): boolean => KEYS[name].press.some((press: Press) => {
  // Which digits and signs need Shift is the keyboard's affair.
  const shifts = press.key.length > 1 || /[a-z]/.test(press.key)
  return event.key.toLowerCase() === press.key.toLowerCase() && !event.altKey
    && (event.ctrlKey || event.metaKey) === (press.mod ?? false)
    && (!shifts || event.shiftKey === (press.shift ?? false))
})

/** A handler that does what its keys are bound to; a deed that gives `false` leaves the key to others. */
export function onKeys(deeds: { readonly [K in KeyName]?: (event: KeyboardEvent) => unknown }) {
  return (event: KeyboardEvent): void => {
    const name = KEY_NAMES.find((each) => deeds[each] && isKey(event, each))
    if (name && deeds[name]?.(event) !== false) event.preventDefault()
  }
}

const SIGNS: Readonly<Record<string, string>> = { ArrowUp: '↑', ArrowDown: '↓', ArrowLeft: '←', ArrowRight: '→' }
const NAMED = ['Enter', 'Escape', 'PageUp', 'PageDown', ' '] as const

/** A key as it is written in the help: `Ctrl Shift Z`; `word` names the keys that every language names otherwise. */
export function keyText(name: KeyName, word: (key: 'mod' | 'shift' | (typeof NAMED)[number]) => string): string {
  const texts = KEYS[name].press.map(({ key, mod, shift }: Press) => {
    const named = NAMED.find((each) => each === key)
    const own = named ? word(named) : SIGNS[key] ?? key.toUpperCase()
    return [mod ? word('mod') : '', shift ? word('shift') : '', own].filter((each) => each !== '').join(' ')
  })
  return texts.length > 4 ? `${texts[0]} … ${texts.at(-1)}` : texts.join(', ')
}

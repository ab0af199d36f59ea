/** The keys of the window: no two clash where both are heard, each does its deed only, and each has its words. */
import { describe, expect, it } from 'vitest'
import type { Press } from '@core/services'
import { isKey, KEY_NAMES, keyText, KEYS, onKeys, type KeyName, type KeyPlace } from '@renderer/shell/keys'

/** Places that are heard at the same time: one inside the other. What has the focus shuts the others out. */
const OUTSIDE: Record<KeyPlace, readonly KeyPlace[]> = {
  window: [], squat: ['window'], bench: ['squat', 'window'], field: ['bench', 'squat', 'window'],
  loads: ['bench', 'squat', 'window'], picture: ['window'], chart: ['squat', 'window'],
}
const together = (a: KeyPlace, b: KeyPlace): boolean => a === b || OUTSIDE[a].includes(b) || OUTSIDE[b].includes(a)
const named = ({ key, mod, shift }: Press): string => `${mod ? 'Ctrl ' : ''}${shift ? 'Shift ' : ''}${key.toLowerCase()}`

const pressed = (press: Press & { alt?: true; meta?: true }): KeyboardEvent & { taken: boolean } => ({
  key: press.shift ? press.key.toUpperCase() : press.key, ctrlKey: (press.mod ?? false) && !press.meta,
  metaKey: press.meta ?? false, shiftKey: press.shift ?? false, altKey: press.alt ?? false, taken: false,
  preventDefault() { (this as { taken: boolean }).taken = true },
}) as unknown as KeyboardEvent & { taken: boolean }

describe('the keys', () => {
  it('do not clash where both are heard', () => {
    const clashes = KEY_NAMES.flatMap((a, i) => KEY_NAMES.slice(i + 1).flatMap((b) =>
      (together(KEYS[a].at, KEYS[b].at)
        ? KEYS[a].press.filter((one: Press) => KEYS[b].press.some((other: Press) => named(one) === named(other)))
          .map((one) => `${a} and ${b}: ${named(one)}`)
        : [])))
    expect(clashes).toEqual([])
  })

  it('are each known by what is pressed, with the command key for Ctrl, and not with Alt', () => {
    for (const name of KEY_NAMES) {
      for (const press of KEYS[name].press as readonly Press[]) {
        expect(isKey(pressed(press), name), `${name} ${named(press)}`).toBe(true)
        expect(isKey(pressed({ ...press, alt: true }), name)).toBe(false)
        if (press.mod) expect(isKey(pressed({ ...press, meta: true }), name)).toBe(true)
      }
    }
    expect(isKey(pressed({ key: 'z', mod: true, shift: true }), 'undo')).toBe(false)
    expect(isKey(pressed({ key: 'z' }), 'undo')).toBe(false)
  })

  it('reach digits that a keyboard has only with Shift', () => {
    expect(isKey({ ...pressed({ key: '3' }), shiftKey: true }, 'digits')).toBe(true)
  })

  it('do their deed and are taken from the browser, unless the deed lets them pass', () => {
    const done: KeyName[] = []
    const handler = onKeys({
      undo: () => { done.push('undo') },
      redo: () => { done.push('redo'); return true },
      addStep: () => false,
    })
    const events = [
      pressed({ key: 'z', mod: true }), pressed({ key: 'z', mod: true, shift: true }), pressed({ key: 'y', mod: true }),
      pressed({ key: 'Enter', mod: true }), pressed({ key: 'x', mod: true }),
    ]
    events.forEach(handler)
    expect(done).toEqual(['undo', 'redo', 'redo'])
    expect(events.map(({ taken }) => taken)).toEqual([true, true, true, false, false])
  })

  it('are written as they are pressed', () => {
    const word = (key: string): string => ({ mod: 'Strg', shift: 'Umschalt', ' ': 'Leertaste' })[key] ?? key
    expect((['undo', 'redo', 'digits', 'vertical', 'space', 'enter'] as const).map((name) => keyText(name, word))).toEqual([
      'Strg Z', 'Strg Y, Strg Umschalt Z', '1 … 0', '↑, ↓', 'Leertaste', 'Enter, Umschalt Enter',
    ])
  })
})

/**
 * Fast typing: inside an element with this handler Enter goes to the next field (with Shift to the one
 * before), up and down move between rows, left and right leave a field at its ends. Fields are taken in
 * the order of the document; a row is an element with `data-row`. Fields inside an element with `data-lane`,
 * a number, are taken lane by lane by Enter, and only from lane to lane: readings are typed down a column.
 */
import { isKey } from '../shell/keys'

const fieldsIn = (root: HTMLElement): HTMLInputElement[] =>
  [...root.querySelectorAll<HTMLInputElement>('input[type="text"]:not([disabled])')]

const laneOf = (field: HTMLElement): number => Number(field.closest<HTMLElement>('[data-lane]')?.dataset['lane'] ?? 0)

/** The fields that Enter goes through from this one, in their order. */
function wayOf(root: HTMLElement, from: HTMLInputElement): HTMLInputElement[] {
  const fields = fieldsIn(root)
  if (laneOf(from) === 0) return fields.filter((each) => laneOf(each) === 0)
  return fields.filter((each) => laneOf(each) > 0).sort((a, b) => laneOf(a) - laneOf(b))
}

function goTo(field: HTMLInputElement | undefined): void {
  if (!field) return
  field.focus()
  field.select()
}

/** Key handler for the element around the fields. `onEnd` runs when Enter leaves the last field. */
export function moveByKey(event: KeyboardEvent, onEnd?: () => void): void {
  const root = event.currentTarget as HTMLElement
  const from = event.target
  if (!(from instanceof HTMLInputElement) || from.type !== 'text') return
  if (isKey(event, 'enter')) {
    event.preventDefault()
    leaveByEnter(root, from, event.shiftKey ? -1 : 1, onEnd)
  } else if (isKey(event, 'vertical')) {
    moveBetweenRows(root, from, event)
  } else if (isKey(event, 'horizontal')) {
    moveAlongRow(root, from, event)
  }
}

/**
 * The field hands its value on first; a wrong entry keeps the builder where it is wrong. A microtask runs
 * after the page is brought up to date and before the next key, however fast it comes. A field that is
 * gone by then has no next one: any other field would be overwritten by what is typed next.
 */
function leaveByEnter(root: HTMLElement, from: HTMLInputElement, by: 1 | -1, onEnd?: () => void): void {
  queueMicrotask(() => {
    if (from.getAttribute('aria-invalid') === 'true') return
    const way = wayOf(root, from)
    const place = way.indexOf(from)
    if (place === -1) return
    const next = way[place + by]
    if (next) goTo(next)
    else if (by === 1) onEnd?.()
  })
}

function moveBetweenRows(root: HTMLElement, from: HTMLInputElement, event: KeyboardEvent): void {
  const row = from.closest<HTMLElement>('[data-row]')
  if (!row) return
  const rows = [...root.querySelectorAll<HTMLElement>('[data-row]')]
  const target = rows[rows.indexOf(row) + (event.key === 'ArrowUp' ? -1 : 1)]
  if (!target) return
  event.preventDefault()
  const fields = fieldsIn(target)
  goTo(fields[Math.min(fieldsIn(row).indexOf(from), fields.length - 1)])
}

/** Only from the end of the text, so that the arrows still move within it. */
function moveAlongRow(root: HTMLElement, from: HTMLInputElement, event: KeyboardEvent): void {
  const whole = from.selectionStart === 0 && from.selectionEnd === from.value.length
  const back = event.key === 'ArrowLeft'
  const caret = from.selectionStart === from.selectionEnd ? from.selectionStart : null
  const atEnd = whole || caret === (back ? 0 : from.value.length)
  const fields = fieldsIn(root)
  const next = fields[fields.indexOf(from) + (back ? -1 : 1)]
  if (!atEnd || !next) return
  event.preventDefault()
  goTo(next)
}

/**
 * Fast typing: inside an element with this handler Enter goes to the next field (with Shift to the one
 * before), up and down move between rows, left and right leave a field at its ends. Fields are taken in
 * the order of the document; a row is an element with `data-row`.
 */
const fieldsIn = (root: HTMLElement): HTMLInputElement[] =>
  [...root.querySelectorAll<HTMLInputElement>('input[type="text"]:not([disabled])')]

function goTo(field: HTMLInputElement | undefined): void {
  if (!field) return
  field.focus()
  field.select()
}

/** Key handler for the element around the fields. `onEnd` runs when Enter leaves the last field. */
export function moveByKey(event: KeyboardEvent, onEnd?: () => void): void {
  const root = event.currentTarget as HTMLElement
  const from = event.target
  if (!(from instanceof HTMLInputElement) || from.type !== 'text' || event.ctrlKey || event.metaKey || event.altKey) return
  if (event.key === 'Enter') {
    event.preventDefault()
    leaveByEnter(root, from, event.shiftKey ? -1 : 1, onEnd)
  } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
    moveBetweenRows(root, from, event)
  } else if (event.key === 'ArrowLeft' || event.key === 'ArrowRight') {
    moveAlongRow(root, from, event)
  }
}

/**
 * The field hands its value on first; a wrong entry keeps the builder where it is wrong. A microtask runs
 * after the page is brought up to date and before the next key, however fast it comes.
 */
function leaveByEnter(root: HTMLElement, from: HTMLInputElement, by: 1 | -1, onEnd?: () => void): void {
  const place = fieldsIn(root).indexOf(from)
  queueMicrotask(() => {
    if (from.getAttribute('aria-invalid') === 'true') return
    const next = fieldsIn(root)[place + by]
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
  if (!atEnd || event.shiftKey || !next) return
  event.preventDefault()
  goTo(next)
}

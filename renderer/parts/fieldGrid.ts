/**
 * Fast typing: inside an element with this handler Enter goes to the next field and the up and down
 * arrows move between rows. Fields are taken in the order of the document; a row is an element with
 * `data-row`.
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
  if (!(from instanceof HTMLInputElement) || from.type !== 'text') return
  if (event.key === 'Enter') {
    const fields = fieldsIn(root)
    const place = fields.indexOf(from)
    event.preventDefault()
    // The field hands its value on first; a wrong entry keeps the builder where it is wrong.
    queueMicrotask(() => {
      if (from.getAttribute('aria-invalid') === 'true') return
      const next = fieldsIn(root)[place + 1]
      if (next) goTo(next)
      else onEnd?.()
    })
    return
  }
  if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return
  const rows = [...root.querySelectorAll<HTMLElement>('[data-row]')]
  const row = from.closest<HTMLElement>('[data-row]')
  if (!row) return
  const column = fieldsIn(row).indexOf(from)
  const target = rows[rows.indexOf(row) + (event.key === 'ArrowUp' ? -1 : 1)]
  if (!target) return
  event.preventDefault()
  const fields = fieldsIn(target)
  goTo(fields[Math.min(column, fields.length - 1)])
}

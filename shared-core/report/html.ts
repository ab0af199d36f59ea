/** HTML from templates in which everything put in is escaped, unless it is markup made here. */

/** Finished markup: only `html` and `svg` templates make it. */
export interface Markup { readonly markup: string }

type Piece = Markup | string | number | null | undefined | false | readonly Piece[]

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', '\'': '&#39;' }

/** Control characters that no document may hold become a mark; everything else that HTML minds is escaped. */
export const escaped = (text: string): string =>
  text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd').replace(/[&<>"']/g, (each) => ESCAPES[each]!)

function piece(value: Piece): string {
  if (value === null || value === undefined || value === false) return ''
  if (typeof value === 'string') return escaped(value)
  if (typeof value === 'number') return escaped(String(value))
  return 'markup' in value ? value.markup : value.map(piece).join('')
}

/** html`<p>${text}</p>`: the text is escaped, markup and lists of markup stand as they are. */
export function html(strings: TemplateStringsArray, ...values: Piece[]): Markup {
  return { markup: strings.reduce((text, part, index) => text + part + (index < values.length ? piece(values[index]) : ''), '') }
}

/** A text inside a CSS string, such as a page's foot. */
export const cssString = (text: string): string =>
  `"${text.replace(/[^ \w.,:;()/+-]/gu, (each) => `\\${each.codePointAt(0)!.toString(16)} `)}"`

/** The faces a report brings along, so that it looks the same wherever it is opened or printed. */

/** One file of a face, WOFF2 in base64. */
export interface ReportFace {
  readonly family: string
  /** As in CSS `font-weight`: one, or from and to. */
  readonly weight: string
  /** The characters it is for, as in CSS `unicode-range`: single ones and spans in hexadecimal. */
  readonly range: string
  readonly base64: string
}

/** First and last code point of each part of a `unicode-range`. @throws on a part that is no such thing */
export function spansOf(range: string): [number, number][] {
  return range.split(',').map((part) => {
    const found = /^U\+([0-9A-F]{1,6})(?:-([0-9A-F]{1,6}))?$/i.exec(part.trim())
    if (!found) throw new Error(`“${part}” is no part of a unicode-range`)
    const first = Number.parseInt(found[1]!, 16)
    return [first, found[2] === undefined ? first : Number.parseInt(found[2], 16)]
  })
}

/** Those of the faces that a text has a character for. */
export function facesFor(text: string, faces: readonly ReportFace[]): ReportFace[] {
  const points = [...new Set(text)].map((each) => each.codePointAt(0)!)
  return faces.filter(({ range }) =>
    spansOf(range).some(([first, last]) => points.some((point) => point >= first && point <= last)))
}

/** Their rules for a style sheet. */
export const faceRules = (faces: readonly ReportFace[]): string => faces.map(({ family, weight, range, base64 }) =>
  `@font-face { font-family: '${family}'; font-weight: ${weight}; unicode-range: ${range}; `
  + `src: url(data:font/woff2;base64,${base64}) format('woff2'); }\n`).join('')

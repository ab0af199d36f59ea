/** Which characters are looked for in which file of a face, as CSS `unicode-range`; the packages' own cuts. */
export const BASIC_LATIN =
  'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-201F,U+2021-2031,'
  + 'U+2034-206F,U+20AC,U+2122,U+2212,U+2215,U+FEFF,U+FFFD'
export const MORE_LATIN =
  'U+0100-0130,U+0132-0151,U+0154-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+1D00-1DBF,U+1E00-1E9F,'
  + 'U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF'
export const GREEK = 'U+0370-0377,U+037A-037F,U+0384-038A,U+038C,U+038E-03A1,U+03A3-03FF'

/** What is drawn as text and no text face has. A new sign goes in here; then `npm run signs`. */
export const SIGNS = '′″←↑→↓↔↕↖↗↘↙↺↻√∞≈≠≤≥■□▲△▶▸▼▽▾◀◂◆◇○◌●◐◯★☆✓'

export const SIGN_RANGE = [...SIGNS].map((each) => `U+${each.codePointAt(0)!.toString(16).toUpperCase()}`).join(',')

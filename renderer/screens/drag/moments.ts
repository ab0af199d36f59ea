/** Moments typed or pasted as text: one a line, or parted by blanks or semicolons, with either decimal mark. */

export type MomentsRead =
  | { readonly timesS: readonly number[] }
  /** Which one, counted from 1, and what stands there. */
  | { readonly trouble: 'noTime' | 'notRising'; readonly at: number; readonly text: string }

const NUMBER = /^\d+([.,]\d+)?$/

export function readMoments(text: string): MomentsRead {
  const timesS: number[] = []
  for (const [i, each] of text.split(/[\s;]+/).filter((part) => part !== '').entries()) {
    if (!NUMBER.test(each)) return { trouble: 'noTime', at: i + 1, text: each.slice(0, 40) }
    const time = Number(each.replace(',', '.'))
    if (i > 0 && time <= timesS[i - 1]!) return { trouble: 'notRising', at: i + 1, text: each.slice(0, 40) }
    timesS.push(time)
  }
  return { timesS }
}

/** Remarks of one code, with the values that it has. */
import type { Remark, RemarkCode } from '@core/remark'

type With<C extends RemarkCode> = Extract<Remark, { readonly code: C }>

export const remarksWith = <C extends RemarkCode>(remarks: readonly Remark[], code: C): With<C>[] =>
  remarks.filter((each): each is With<C> => each.code === code)

/** The first of them; there must be one. */
export function remarkWith<C extends RemarkCode>(remarks: readonly Remark[], code: C): With<C> {
  const [found] = remarksWith(remarks, code)
  if (!found) throw new Error(`no remark ${code}`)
  return found
}

/** Names of set-ups and springs: the same name twice can't be told apart in a table. */
interface Named { readonly name: string }

const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase()

/** True where one of them has this name already, whatever its capitals and spaces. */
export const sameName = (name: string, others: readonly Named[]): boolean =>
  others.some((each) => plain(each.name) === plain(name))

/** A name with the first number from their count on that none of them has. */
export function freeName(word: string, others: readonly Named[]): string {
  let number = others.length + 1
  while (sameName(`${word} ${number}`, others)) number++
  return `${word} ${number}`
}

/** Work over many files with few of them open at once. */

/** Far below any system's limit of open files, and enough to keep a disk busy. */
const AT_ONCE = 16

/** Does the work for every item, some at a time; the results are in the items' order. */
export async function someAtATime<A, B>(items: readonly A[], work: (item: A) => Promise<B>): Promise<B[]> {
  const results: B[] = []
  const waiting = items.entries()
  const lane = async (): Promise<void> => {
    for (const [index, item] of waiting) results[index] = await work(item)
  }
  await Promise.all(Array.from({ length: Math.min(AT_ONCE, items.length) }, lane))
  return results
}

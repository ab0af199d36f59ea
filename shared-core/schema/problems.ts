/** Turns what zod found into sentences that say what is wrong, where, and what to do. */
import type { z } from 'zod'

/** One thing wrong with an input. `where` is a path such as `sessions[2].steps[0].placed[1].xMm`. */
export interface Problem {
  where: string
  what: string
}

/** A path of keys and indices as one readable text; the document itself is `(whole)`. */
export function pathText(path: readonly PropertyKey[]): string {
  if (path.length === 0) return '(whole)'
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`),
    '',
  )
}

/** At most `most` problems of a failed parse, in the document's order, and how many there were in all. */
export function problemsOf(error: z.ZodError, most = 20): { problems: Problem[]; total: number } {
  const problems = error.issues.slice(0, most).map((issue) => ({ where: pathText(issue.path), what: issue.message }))
  return { problems, total: error.issues.length }
}

/** Turns what zod found into sentences that say what is wrong, where, and what to do. */
import type { z } from 'zod'

/** One thing wrong with an input. `where` is a path such as `sessions[2].steps[0].placed[1].xMm`. */
export interface Problem {
  where: string
  /** In English. */
  what: string
  /** What is wrong, for other languages; without one only `what` tells. `limit` is the bound or what is wanted. */
  code?: ProblemCode
  limit?: string
}

export const PROBLEM_CODES = [
  'wrongType', 'tooLow', 'tooHigh', 'wrongForm', 'unknownKeys', 'notOneOf', 'twin', 'noSquatbenchFile', 'noDocument',
] as const
export type ProblemCode = (typeof PROBLEM_CODES)[number]

/** The code of what zod found. */
function codeOf(issue: z.core.$ZodIssue): Pick<Problem, 'code' | 'limit'> {
  switch (issue.code) {
    case 'invalid_type': return { code: 'wrongType', limit: issue.expected }
    case 'too_small': return { code: 'tooLow', limit: String(issue.minimum) }
    case 'too_big': return { code: 'tooHigh', limit: String(issue.maximum) }
    case 'invalid_format': return { code: 'wrongForm', limit: issue.format }
    case 'unrecognized_keys': return { code: 'unknownKeys', limit: issue.keys.join(', ') }
    case 'invalid_value': return { code: 'notOneOf', limit: issue.values.map(String).join(', ') }
    case 'custom': return issue.params?.['code'] === 'twin' ? { code: 'twin' } : {}
    default: return {}
  }
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
  const problems = error.issues.slice(0, most).map((issue) => ({
    where: pathText(issue.path), what: issue.message, ...codeOf(issue),
  }))
  return { problems, total: error.issues.length }
}

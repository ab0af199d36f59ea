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

/** What a check of ours may give as `params.code`. */
const OWN_CODES = ['twin', 'oneLine', 'otherChassis'] as const

export const PROBLEM_CODES = [
  'numberNeeded', 'textNeeded', 'listNeeded', 'yesNoNeeded', 'entryNeeded', 'momentNeeded', 'tooLow', 'tooHigh',
  'textMissing', 'tooLong', 'tooFew', 'tooMany', 'wrongForm', 'unknownKeys', 'notOneOf', 'noSquatbenchFile', 'noDocument',
  ...OWN_CODES,
] as const
export type ProblemCode = (typeof PROBLEM_CODES)[number]

const NEEDED: Readonly<Record<string, ProblemCode>> = {
  number: 'numberNeeded', string: 'textNeeded', array: 'listNeeded', boolean: 'yesNoNeeded',
}
const LEAST: Readonly<Record<string, ProblemCode>> = { string: 'textMissing', array: 'tooFew' }
const MOST: Readonly<Record<string, ProblemCode>> = { string: 'tooLong', array: 'tooMany' }

/** The code of what zod found. */
function codeOf(issue: z.core.$ZodIssue): Pick<Problem, 'code' | 'limit'> {
  switch (issue.code) {
    case 'invalid_type': return { code: NEEDED[issue.expected] ?? 'entryNeeded' }
    case 'too_small': return { code: LEAST[issue.origin] ?? 'tooLow', limit: String(issue.minimum) }
    case 'too_big': return { code: MOST[issue.origin] ?? 'tooHigh', limit: String(issue.maximum) }
    case 'invalid_format': return { code: issue.format === 'datetime' ? 'momentNeeded' : 'wrongForm' }
    case 'unrecognized_keys': return { code: 'unknownKeys', limit: issue.keys.join(', ') }
    case 'invalid_value': return { code: 'notOneOf', limit: issue.values.map(String).join(', ') }
    case 'custom': {
      const code = OWN_CODES.find((each) => each === issue.params?.['code'])
      return code ? { code } : {}
    }
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

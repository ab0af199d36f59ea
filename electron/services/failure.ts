/** Failures of the services, in words a builder can act on, and how the system's own errors become them. */
import type { ServiceError } from '@core/services'

type Code = ServiceError['code']

/** Thrown by whatever stands behind the table; `dispatch` turns it into the answer. */
export class ServiceFailure extends Error {
  readonly code: Code
  readonly problems: ServiceError['problems']

  constructor(code: Code, message: string, problems: ServiceError['problems'] = []) {
    super(message)
    this.name = 'ServiceFailure'
    this.code = code
    this.problems = problems
  }
}

const FULL = ['ENOSPC', 'EDQUOT', 'EFBIG']
const FORBIDDEN = ['EACCES', 'EPERM', 'EROFS']
const TOO_MANY = ['EMFILE', 'ENFILE']

/** The system's code of an error (`ENOSPC`), or null. */
export function systemCode(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('code' in error)) return null
  return typeof error.code === 'string' ? error.code : null
}

/** True where the error says that a file or folder is not there. */
export const isMissing = (error: unknown): boolean => ['ENOENT', 'ENOTDIR'].includes(systemCode(error) ?? '')

/**
 * Any thrown thing as a `ServiceError`: what failed, where, what to do.
 * @param doing what was being done, as in "saving the session"
 */
export function asServiceError(error: unknown, doing: string): ServiceError {
  if (error instanceof ServiceFailure) {
    return { code: error.code, message: error.message, problems: [...error.problems] }
  }
  const code = systemCode(error)
  const path = typeof error === 'object' && error !== null && 'path' in error ? String(error.path) : null
  const problems = path === null ? [] : [{ where: path, what: code ?? 'failed' }]
  if (code !== null && FULL.includes(code)) {
    return {
      code: 'noSpace',
      message: `Failed while ${doing}: the disk is full. Free some space and try again; what was saved before is safe.`,
      problems,
    }
  }
  if (code !== null && FORBIDDEN.includes(code)) {
    return {
      code: 'notWritable',
      message: `Failed while ${doing}: the system does not allow it. Make the library folder writable for you, `
        + 'or name another one, and try again; what was saved before is safe.',
      problems,
    }
  }
  if (code !== null && TOO_MANY.includes(code)) {
    return {
      code: 'failed',
      message: `Failed while ${doing}: too many files are open on this machine. Close some programs and try again.`,
      problems,
    }
  }
  const told = error instanceof Error ? error.message : String(error)
  return {
    code: 'failed',
    message: `Failed while ${doing}: ${told.slice(0, 500)}. Try again; what was saved before is safe.`,
    problems,
  }
}

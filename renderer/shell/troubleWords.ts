/** A failed service in the builder's language where it has words of its own, else as the service says it. */
import type { ServiceError } from '@core/services'

export const troubleWords = (
  { code, message }: ServiceError, t: (key: string) => string, te: (key: string) => boolean,
): string => (te(`shell.trouble.${code}`) ? t(`shell.trouble.${code}`) : message)

/** What is wrong at one place of an input, in the builder's language where it is known by its code. */
export const problemWords = (
  { what, code, limit }: ServiceError['problems'][number], t: (key: string, values: Record<string, string>) => string,
): string => (code ? t(`shell.problem.${code}`, { limit: limit ?? '' }) : t('shell.problem.other', { what }))

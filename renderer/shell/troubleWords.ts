/** A failed service in the builder's language where it has words of its own, else as the service says it. */
import type { ServiceError } from '@core/services'

export const troubleWords = (
  { code, message }: ServiceError, t: (key: string) => string, te: (key: string) => boolean,
): string => (te(`shell.trouble.${code}`) ? t(`shell.trouble.${code}`) : message)

/**
 * Who may come in: whoever brings the one-time token from the terminal gets a session, kept in a
 * cookie that no script can read and no other site can send. Everything is compared in constant time.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'

const secret = (): string => randomBytes(32).toString('base64url')

/** Compares two texts in a time that tells nothing of where they differ. */
export function sameSecret(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(a), digest(b))
}

export class Admission {
  /** Good for one exchange. */
  readonly token = secret()
  private readonly session = secret()
  private readonly cookieName: string
  private used = false

  /** @param port browsers keep one jar for all ports of an address, so the cookie's name holds ours */
  constructor(port: number) {
    this.cookieName = `squatbench-${port}`
  }

  /** The cookie for the right token the first time, else null. */
  exchange(token: string): string | null {
    if (!sameSecret(token, this.token) || this.used) return null
    this.used = true
    return `${this.cookieName}=${this.session}; Path=/; HttpOnly; SameSite=Strict`
  }

  /** True where the request's cookies hold the session. */
  admits(cookies: string | undefined): boolean {
    const own = (cookies ?? '').split(';').map((cookie) => cookie.trim().split('='))
      .find(([name]) => name === this.cookieName)
    return own !== undefined && sameSecret(own[1] ?? '', this.session)
  }
}

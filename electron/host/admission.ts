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
  private readonly family: string
  private readonly cookieName: string
  private used = false

  /**
   * @param port browsers keep one jar for all ports of an address, and any page of this address can lay a cookie into
   * it: so the name holds our port, and a part that nobody can know who might want to overwrite it
   */
  constructor(port: number) {
    this.family = `squatbench-${port}-`
    this.cookieName = this.family + randomBytes(8).toString('hex')
  }

  /** The cookies for the right token the first time, else null: the session, and an end to those of earlier starts. */
  exchange(token: string, cookies?: string): string[] | null {
    if (!sameSecret(token, this.token) || this.used) return null
    this.used = true
    const old = [...new Set(pairs(cookies).map(([name = '']) => name))]
      .filter((name) => name.startsWith(this.family) && name !== this.cookieName)
    return [
      `${this.cookieName}=${this.session}; Path=/; HttpOnly; SameSite=Strict`,
      ...old.map((name) => `${name}=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict`),
    ]
  }

  /** True where one of the request's cookies holds the session; others of the same name may stand before it. */
  admits(cookies: string | undefined): boolean {
    return pairs(cookies).some(([name, value]) => name === this.cookieName && sameSecret(value ?? '', this.session))
  }
}

const pairs = (cookies = ''): string[][] => cookies.split(';').map((cookie) => cookie.trim().split('='))

/** Tells a failed fetch from every other error of the packager. */

/** Codes of Node's network calls and of its certificates. */
const CODE = new RegExp([
  'ENOTFOUND', 'EAI_AGAIN', 'ECONN\\w+', 'ETIMEDOUT', 'ENETUNREACH', 'EHOSTUNREACH', 'EPIPE', 'UND_ERR_\\w+',
  'CERT_\\w+', 'UNABLE_TO_\\w+', '(?:DEPTH_ZERO_)?SELF_SIGNED_\\w+', 'ERR_TLS_\\w+',
].map((code) => `\\b${code}\\b`).join('|'))

/** What the packager and its tools say of a server that answers with an error, or not at all. */
const SAID = /fetch failed|socket hang up|Response code [45]\d\d|HTTPError|status(?: code)?:? [45]\d\d/i

/** What could not be fetched, in the error's own words; null where the error is of another kind. */
export function fetchProblem(error: unknown): string | null {
  for (let at = error; at instanceof Error; at = at.cause) {
    const code = 'code' in at && typeof at.code === 'string' ? at.code : ''
    if (CODE.test(code) || CODE.test(at.message) || SAID.test(`${at.name}: ${at.message}`)) {
      return at.message.split('\n')[0]?.slice(0, 300) ?? code
    }
  }
  return null
}

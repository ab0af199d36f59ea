/** New identifiers and the moment of now, for what the builder enters. */

/** A new identifier such as `step-k3x9a2m4q7`. */
export function newId(kind: string): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10))
  return `${kind}-${[...bytes].map((byte) => (byte % 36).toString(36)).join('')}`
}

export const now = (): string => new Date().toISOString()

/** A readable identifier from a name, with a random ending so that equal names stay apart. */
export function idFromName(name: string): string {
  const plain = name.normalize('NFKD').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 40)
  return newId(plain.replace(/-+$/, '') || 'item')
}

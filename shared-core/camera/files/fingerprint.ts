/** To know a file again that was moved or renamed: its size and a hash of its two ends. Guards nothing. */

/** Bytes hashed at each end of a file. */
export const FINGERPRINT_BYTES = 1 << 16

/** FNV-1a, 32 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv), from a given basis. */
function fnv1a(bytes: Uint8Array, basis: number): number {
  let hash = basis
  for (const byte of bytes) {
    hash ^= byte
    hash = Math.imul(hash, 0x01000193)
  }
  return hash >>> 0
}

/**
 * @param sizeBytes of the whole file
 * @param head its first `FINGERPRINT_BYTES`
 * @param tail its last ones (the two overlap in a small file)
 */
export function fingerprintOf(sizeBytes: number, head: Uint8Array, tail: Uint8Array): string {
  const hex = (value: number): string => value.toString(16).padStart(8, '0')
  return `${sizeBytes}-${hex(fnv1a(head, 0x811c9dc5))}${hex(fnv1a(tail, 0x811c9dc5))}`
}

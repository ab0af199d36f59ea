/**
 * Fingerprint of the data a report rests on: SHA-256 (FIPS 180-4) of the exchange document in the
 * canonical form of RFC 8785 (keys sorted by code unit, no space, numbers as ECMAScript writes them).
 */
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'

/** Canonical JSON of a document of strings, finite numbers, booleans, nulls, lists and plain objects. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((each) => canonicalJson(each ?? null)).join(',')}]`
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).filter(([, each]) => each !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    return `{${entries.map(([key, each]) => `${JSON.stringify(key)}:${canonicalJson(each)}`).join(',')}}`
  }
  return JSON.stringify(value)
}

/** 64 hexadecimal digits, the same for the same data in any order of keys. */
export const fingerprint = (document: unknown): string => bytesToHex(sha256(utf8ToBytes(canonicalJson(document))))

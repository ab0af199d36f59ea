/** The fingerprint against RFC 8785, 3.2.2 and 3.2.3 (from memory), and FIPS 180-4's example "abc". */
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import { describe, expect, it } from 'vitest'
import { canonicalJson, fingerprint } from '@core/report'

describe('canonical JSON', () => {
  it('sorts keys by code unit and writes numbers as RFC 8785, 3.2.2 does', () => {
    const document = {
      numbers: [333333333.33333329, 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
      string: '\u20ac$\u000f\u000aA\'\u0042\u0022\u005c\\"/', literals: [null, true, false],
    }
    expect(canonicalJson(document)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
      + '"string":"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}')
  })

  it('sorts the keys of RFC 8785, 3.2.3', () => {
    const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6']
    const sorted = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33']
    const text = canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])))
    expect(text).toBe(`{${sorted.map((key) => `${JSON.stringify(key)}:0`).join(',')}}`)
  })
})

describe('fingerprint', () => {
  it('is SHA-256 as FIPS 180-4 has it', () => {
    expect(bytesToHex(sha256(utf8ToBytes('abc'))))
      .toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
    expect(fingerprint('abc')).toBe(bytesToHex(sha256(utf8ToBytes('"abc"'))))
  })

  it('does not change with the order of keys, and changes with any value', () => {
    expect(fingerprint({ a: 1, b: [2, { c: 3, d: 4 }] })).toBe(fingerprint({ b: [2, { d: 4, c: 3 }], a: 1 }))
    expect(fingerprint({ a: 1 })).not.toBe(fingerprint({ a: 1.0000001 }))
    expect(fingerprint({ a: [1, 2] })).not.toBe(fingerprint({ a: [2, 1] }))
  })
})

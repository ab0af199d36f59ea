import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020'
import { describe, expect, it } from 'vitest'
import { openExchange } from '@core/schema'
import { exchangeSchemaText, SCHEMA_FILE } from '@electron/tools/exchangeSchema'
import { someExchange } from '../../harness/documents'

const read = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8')

describe('the published schema of the exchange file', () => {
  it('is the one of the source (else run: npm run schema)', () => {
    expect(read(SCHEMA_FILE)).toBe(exchangeSchemaText())
  })

  // Ajv is an independent validator of JSON Schema 2020-12.
  const accepts = new Ajv2020({ validateFormats: false, strict: false })
    .compile(JSON.parse(exchangeSchemaText()) as object)

  it.each(['seeds/demo.json', 'tests/unit/schema/fixtures/version-2/exchange.json'])('takes %s', (path) => {
    expect([accepts(JSON.parse(read(path))), accepts.errors]).toEqual([true, null])
  })

  it.each([
    ['a missing key', { chassis: undefined }],
    ['an unknown key', { more: 1 }],
    ['another format', { format: 'other' }],
    ['a newer version', { schemaVersion: 3 }],
    ['a number out of range', { chassis: { ...someExchange('a').chassis, cgHeightMm: { value: -1, u: 0 } } }],
    ['an id that is no id', { chassis: { ...someExchange('a').chassis, id: 'A B' } }],
  ])('refuses %s, as the program does', (_case, change) => {
    const file = JSON.parse(JSON.stringify({ ...someExchange('a'), ...change })) as unknown
    expect([accepts(file), openExchange(file).kind === 'opened']).toEqual([false, false])
  })
})

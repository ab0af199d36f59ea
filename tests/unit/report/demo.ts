/** The demo's data and results, worked out once for the report's tests. */
import { readFileSync } from 'node:fs'
import { analyse, DEFAULT_OPTIONS, type Analysis } from '@core/analysis'
import { ENGLISH, fingerprint, type ReportInput } from '@core/report'
import { openExchangeText, type Exchange } from '@core/schema'
import { DEFAULT_UNITS } from '@core/units'

export function demoExchange(): Exchange {
  const opening = openExchangeText(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8'))
  if (opening.kind !== 'opened') throw new Error('the demo does not open')
  return opening.document
}

export const analysed = (exchange: Exchange): Analysis => analyse(exchange, { ...DEFAULT_OPTIONS, heightsFor: 'all' })

export const reportInput = (exchange: Exchange, analysis: Analysis, more: Partial<ReportInput> = {}): ReportInput => ({
  exchange, analysis, part: 'annex', units: DEFAULT_UNITS, language: ENGLISH, scope: { kind: 'chassis' }, faces: [],
  about: { version: '0.0.0-test', madeAt: '2031-05-05T10:00:00.000Z', fingerprint: fingerprint(exchange) }, ...more,
})

/** Works out a whole exchange file, and writes its report, away from the window. The newest question wins. */
import { analyse, type Analysis, type AnalysisOptions } from '@core/analysis'
import type { LANGUAGES, ReportInput } from '@core/report'
import type { Exchange } from '@core/schema'

/** What a report needs beyond the last exchange file that was worked out. */
export interface ReportWish {
  readonly units: ReportInput['units']
  readonly scope: ReportInput['scope']
  readonly language: keyof typeof LANGUAGES
  readonly version: string
  readonly madeAt: string
}
export type Question =
  | { readonly kind: 'analysis'; readonly ticket: number; readonly exchange: Exchange; readonly options: AnalysisOptions }
  | { readonly kind: 'report'; readonly ticket: number; readonly wish: ReportWish }
export type Reply =
  | { readonly kind: 'analysis'; readonly ticket: number; readonly ok: true; readonly analysis: Analysis }
  | { readonly kind: 'report'; readonly ticket: number; readonly ok: true; readonly html: string }
  | { readonly kind: Question['kind']; readonly ticket: number; readonly ok: false; readonly why: string }

let last: { exchange: Exchange; analysis: Analysis } | null = null

async function written({ language, version, madeAt, ...wish }: ReportWish): Promise<string> {
  if (!last) return ''
  const of = last
  const report = await import('@core/report')
  return report.reportHtml({
    ...wish, ...of, language: report.LANGUAGES[language],
    about: { version, madeAt, fingerprint: report.fingerprint(of.exchange) },
  })
}

async function answer(question: Question): Promise<Reply> {
  const { kind, ticket } = question
  try {
    if (kind === 'report') return { kind, ticket, ok: true, html: await written(question.wish) }
    const { exchange, options } = question
    last = { exchange, analysis: analyse(exchange, options) }
    return { kind, ticket, ok: true, analysis: last.analysis }
  } catch (error) {
    return { kind, ticket, ok: false, why: error instanceof Error ? error.message : String(error) }
  }
}

self.onmessage = (event: MessageEvent<Question>) => void answer(event.data).then((reply) => self.postMessage(reply))

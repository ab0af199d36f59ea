/** Works out a whole exchange file away from the window. The newest question wins. */
import { analyse, type Analysis, type AnalysisOptions } from '@core/analysis'
import type { Exchange } from '@core/schema'

export interface Question { readonly ticket: number; readonly exchange: Exchange; readonly options: AnalysisOptions }
export type Reply =
  | { readonly ticket: number; readonly ok: true; readonly analysis: Analysis }
  | { readonly ticket: number; readonly ok: false; readonly why: string }

self.onmessage = (event: MessageEvent<Question>) => {
  const { ticket, exchange, options } = event.data
  try {
    self.postMessage({ ticket, ok: true, analysis: analyse(exchange, options) } satisfies Reply)
  } catch (error) {
    self.postMessage({ ticket, ok: false, why: error instanceof Error ? error.message : String(error) } satisfies Reply)
  }
}

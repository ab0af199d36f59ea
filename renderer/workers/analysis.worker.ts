/** Works out a whole exchange file, and writes its report, away from the window. */
import { analyse, type Analysis, type AnalysisOptions } from '@core/analysis'
import type { LANGUAGES, ReportInput } from '@core/report'
import { driveCourse } from '@core/course'
import type { Exchange } from '@core/schema'
import { reportFaces } from '../look/reportFaces'
import { remembered } from './remembered'
import { serve } from './serve'

/** What a report needs beyond the last exchange file that was worked out. */
export interface ReportWish {
  readonly units: ReportInput['units']
  readonly part: ReportInput['part']
  readonly scope: ReportInput['scope']
  readonly language: keyof typeof LANGUAGES
  readonly version: string
  readonly madeAt: string
}

const drive = remembered(driveCourse)

let last: { exchange: Exchange; analysis: Analysis } | null = null

const deeds = {
  /** Works it out and keeps it: to take it over costs the window time, so it is asked for by itself. */
  analyse({ exchange, options }: { readonly exchange: Exchange; readonly options: AnalysisOptions }): void {
    last = { exchange, analysis: analyse(exchange, options, drive) }
  },
  result(): Analysis {
    if (!last) throw new Error('no car is worked out')
    return last.analysis
  },
  async report({ language, version, madeAt, ...wish }: ReportWish): Promise<string> {
    if (!last) throw new Error('no car is worked out')
    const of = last
    const report = await import('@core/report')
    return report.reportHtml({
      ...wish, ...of, language: report.LANGUAGES[language], faces: await reportFaces(),
      about: { version, madeAt, fingerprint: report.fingerprint(of.exchange) },
    })
  },
}
export type AnalysisDeeds = typeof deeds
serve(deeds)

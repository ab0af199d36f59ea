/** The answer before all tables, and as JSON with SI units in the keys. */
import { answerOf, type Answer } from '@core/answer'
import { answerLines, voiceOf } from '@core/report'
import { ENGLISH } from '@core/report/words'
import { perAxleOf } from '@core/chassis'
import type { Statement } from '@core/uncertainty'
import { DEFAULT_UNITS } from '@core/units'
import type { Results } from './results'
import { statementJson } from './words'

const answerIn = ({ exchange, analysis }: Results): Answer | null =>
  answerOf(analysis, exchange.chassis, { units: DEFAULT_UNITS })

/** Nothing where no set-up was read in moving air. */
export function answerText(results: Results): string[] {
  const answer = answerIn(results)
  if (!answer) return []
  const { title, name, speed, load, beside, lines, sure } =
    answerLines(answer, voiceOf({ units: DEFAULT_UNITS, language: ENGLISH, exchange: results.exchange }))
  return [
    `${title}: ${name}  (${speed})`, `  ${load} (${beside.join('; ')})`,
    ...lines.map(({ label, text }) => `  ${label}: ${text}`), ...sure.map((each) => `  ${each}`), '',
  ]
}

export function answerJson(results: Results): unknown {
  const answer = answerIn(results)
  if (!answer) return null
  const { speed, configurationId, measure, at, lead, balance, touch, cost } = answer
  const maybe = (said: Statement | null, suffix: string) => said && statementJson(said, suffix)
  return {
    speedMs: speed.speedMs, speedFrom: speed.from, configurationId, measure,
    load: statementJson(at.totalN, 'N'), weightShare: statementJson(at.weightShare, ''),
    axles: perAxleOf((axle) => statementJson(at.forceN[axle], 'N')),
    lead: {
      kind: lead.kind, other: lead.other, tiedWith: lead.tiedWith, by: maybe(lead.byN, 'N'), probability: lead.probability,
    },
    balance: balance && {
      tendency: balance.tendency, slight: balance.slight, frontShare: statementJson(balance.frontShare, ''),
      staticFrontShare: statementJson(balance.staticFrontShare, ''), shift: statementJson(balance.shift, ''),
    },
    touchDown: { kind: touch.kind, axle: touch.axle, down: touch.down, speed: statementJson(touch.speedMs, 'Ms') },
    cost: {
      drag: maybe(cost.dragN, 'N'), loadPerDrag: maybe(cost.loadPerDrag, ''), moreDrag: maybe(cost.moreDragN, 'N'),
      lap: cost.lap && { course: cost.lap.course, difference: statementJson(cost.lap.lapS, 'S') },
    },
  }
}

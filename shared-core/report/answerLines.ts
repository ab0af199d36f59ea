/** The answer as texts: a headline, a line for each question, and how sure it is; for window, page and headless run. */
import { endsOf, type Answer } from '@core/answer'
import type { Statement } from '@core/uncertainty'
import type { Voice } from './paper'
import { probabilityText } from './parts/probability'

export type AnswerCode = 'lead' | 'balance' | 'touch' | 'cost'

export interface AnswerLines {
  /** "Presses hardest at 20 m/s", the set-up's name, and why this speed. */
  readonly title: string
  readonly name: string
  readonly speed: string
  /** The load, large; `isBound` where it is "at least" or the like. */
  readonly load: string
  readonly isBound: boolean
  /** Its interval or why it is a bound, and what it is of the weight. */
  readonly beside: readonly string[]
  readonly lines: readonly { readonly code: AnswerCode; readonly label: string; readonly text: string }[]
  /** Folded up beneath: how sure it is. */
  readonly sure: readonly string[]
}

export function answerLines(answer: Answer, voice: Voice): AnswerLines {
  const { say } = voice
  const { speed, at, lead } = answer
  const line = (code: AnswerCode, text: string) => ({ code, label: say(`answerLabel_${code}`), text })
  const outside = at.totalN.kind === 'interval' && at.totalN.extrapolated
  return {
    title: say(lead.kind === 'only' ? 'answerOne' : 'answerBest', { speed: voice.short(speed.speedMs, 'speed') }),
    name: voice.nameOf(answer.configurationId),
    speed: say(`answer_${speed.from}`) + (outside ? `; ${say('answerOutside')}` : ''),
    load: voice.main(at.totalN, 'force'),
    isBound: at.totalN.kind !== 'interval',
    beside: [voice.detail(at.totalN, 'force'), ...weight(answer, voice)],
    lines: [
      line('lead', leadText(answer, voice)), line('balance', balanceText(answer, voice)),
      line('touch', touchText(answer, voice)), line('cost', costText(answer, voice)),
    ],
    sure: sureTexts(answer, voice),
  }
}

function weight({ at }: Answer, voice: Voice): string[] {
  const { weightShare } = at
  return weightShare.kind === 'untold' ? [] : [voice.say('answerWeight', { share: shareText(weightShare, voice) })]
}

const named = (ids: readonly string[], { nameOf }: Voice): string => ids.map(nameOf).join(', ')

function leadText({ lead }: Answer, voice: Voice): string {
  const { say } = voice
  const other = lead.other === null ? '' : voice.nameOf(lead.other)
  const by = lead.byN && lead.byN.kind !== 'untold' ? voice.said(lead.byN, 'force') : null
  switch (lead.kind) {
    case 'only': return say('leadAlone')
    case 'untold': return say('leadUntold', { names: named(lead.tiedWith, voice) })
    case 'close': {
      const names = named(lead.tiedWith, voice)
      return by === null || lead.tiedWith.length > 1 ? say('leadCloseOnly', { names }) : say('leadClose', { names, by })
    }
    case 'clear': {
      if (by === null) return say('leadClearOnly', { other })
      return say(lead.othersCount > 1 ? 'leadClear' : 'leadClearOne', { other, by })
    }
  }
}

function balanceText({ balance }: Answer, voice: Voice): string {
  const { say } = voice
  if (!balance) return say('balanceDown')
  const { frontShare, staticFrontShare, tendency, slight } = balance
  if (frontShare.kind === 'untold') return say('balanceUntold', { why: voice.why(frontShare) })
  const front = shareText(frontShare, voice)
  if (staticFrontShare.kind === 'untold') return say('balanceFront', { front })
  const shares = say('balanceShares', { front, standing: shareText(staticFrontShare, voice) })
  const leans = tendency === 'understeer' || tendency === 'oversteer'
  return `${shares} ${say(slight && leans ? `tendencySlight_${tendency}` : `tendency_${tendency}`)}`
}

/** A share in a sentence: its figure without the digits that only its interval needs. */
const shareText = (said: Statement, voice: Voice): string =>
  (said.kind === 'interval' ? voice.short(said.value, 'share') : voice.main(said, 'share'))

function touchText({ touch }: Answer, voice: Voice): string {
  const { say } = voice
  if (touch.kind === 'never') return say('groundNever')
  if (touch.speedMs.kind === 'untold') return say('groundUntold', { why: voice.why(touch.speedMs) })
  const axle = touch.axle === null ? '' : say(`end_${touch.axle}`)
  const values = { axle, speed: voice.said(touch.speedMs, 'speed') }
  if (touch.kind === 'diverges') return capital(say('groundDiverges', values))
  return say(touch.down ? 'groundDown' : 'groundMeets', values)
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

const isTold = (said: Statement | null): said is Statement => said !== null && said.kind !== 'untold'

function costText({ cost, lead }: Answer, voice: Voice): string {
  const { say } = voice
  const other = lead.other === null ? '' : voice.nameOf(lead.other)
  const texts: string[] = []
  if (isTold(cost.dragN)) {
    const drag = voice.said(cost.dragN, 'force')
    texts.push(isTold(cost.loadPerDrag)
      ? say('costDrag', { drag, ratio: voice.main(cost.loadPerDrag, 'number') }) : say('costDragOnly', { drag }))
  }
  if (isTold(cost.moreDragN)) texts.push(say('costMore', { more: voice.said(cost.moreDragN, 'force', { signed: true }), other }))
  if (cost.lap && isTold(cost.lap.lapS)) {
    const [low, high] = endsOf(cost.lap.lapS)
    const way = high < 0 ? 'quicker' : low > 0 ? 'slower' : 'close'
    texts.push(say(`costLap_${way}`, { course: cost.lap.course, other, time: voice.said(cost.lap.lapS, 'time', { signed: true }) }))
  }
  return texts.length > 0 ? texts.join(' ') : say('costUnread')
}

function sureTexts({ lead, doubt, airSpeedHalf, measure, balance }: Answer, voice: Voice): string[] {
  const { say } = voice
  return [
    say('sureInterval'), say(`sureMeasure_${measure}`),
    ...(lead.probability && lead.other !== null
      ? [say('sureProbability', { other: voice.nameOf(lead.other), probability: probabilityText(voice, lead.probability) })] : []),
    ...(doubt ? [say('sureDoubt', { group: say(`group_${doubt.group}`), share: voice.short(doubt.share, 'share') })] : []),
    ...(airSpeedHalf !== null ? [say('sureAir', { half: voice.short(airSpeedHalf, 'share') })] : []),
    ...(balance && balance.tendency !== 'untold' && balance.tendency !== 'keeps' ? [say('sureBalance')] : []),
  ]
}

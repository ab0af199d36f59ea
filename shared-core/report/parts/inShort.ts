/** What stands beside the answer: the pair asked for, the track, and, without air yet, the rates. */
import { stiffnessAt } from '@core/calibration'
import { AXLES } from '@core/schema'
import type { TrackComparison } from '@core/track'
import { intervalStatement } from '@core/uncertainty'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { probabilityText } from './probability'
import { comparedPair, setUpsInScope, trackInScope } from './inScope'
import { list } from './table'

/** At most this many sentences about the track of a whole car: the annex has all. */
const MOST_TRACK = 3

export function inShort(paper: Paper): Markup {
  const sentences = [
    ...(paper.scope.kind === 'comparison' ? ofPair(paper) : []),
    ...trackInShort(paper).map((each) => ofTrack(paper, each)),
  ]
  const shown = paper.analysis.configurations.length > 0 ? sentences : [...ofCurves(paper), paper.say('shortNothing')]
  if (shown.length === 0) return html``
  return html`<section class="short"><h2>${paper.say('short')}</h2>${list(shown)}</section>`
}

/** All of the pair asked for; of a whole car those in which the best of the ladder took part. */
function trackInShort(paper: Paper): TrackComparison[] {
  const all = trackInScope(paper).flatMap(({ groups }) => groups.flatMap((group) => group.comparisons))
  if (paper.scope.kind === 'comparison') return all
  const order = setUpsInScope(paper).map((each) => each.configurationId)
  const place = (id: string): number => (order.includes(id) ? order.indexOf(id) : order.length)
  const places = ({ beforeId, afterId }: TrackComparison): [number, number] => {
    const [one, other] = [place(beforeId), place(afterId)]
    return [Math.min(one, other), Math.max(one, other)]
  }
  return [...all].sort((a, b) => {
    const [[bestA, nextA], [bestB, nextB]] = [places(a), places(b)]
    return bestA - bestB || nextA - nextB
  }).slice(0, MOST_TRACK)
}

/** Without air yet, the curves are the answer: each axle's rate half way down what was read. */
function ofCurves(paper: Paper): string[] {
  const axles = paper.analysis.squats.at(-1)?.axles
  return AXLES.flatMap((axle) => {
    const curve = axles?.[axle]
    if (!curve || curve.refused) return []
    const dropMm = curve.rangeMm / 2
    return [paper.say('shortRate', {
      axle: paper.say(axle), rate: paper.said(intervalStatement(stiffnessAt(curve, dropMm)), 'rate'),
      drop: paper.short(dropMm, 'length'), shape: paper.say(`shapeName_${curve.chosen}`),
    })]
  })
}

function ofPair(paper: Paper): string[] {
  const pair = comparedPair(paper)
  if (!pair) return []
  const { comparison, distinct } = pair
  const [a, b] = [paper.nameOf(comparison.configurationA), paper.nameOf(comparison.configurationB)]
  const difference = paper.said(comparison.total.differenceM2.statement, 'area', { signed: true })
  return [
    [paper.say('shortDifference', { a, b, difference }), paper.say(distinct ? 'shortDistinct' : 'shortNotDistinct')].join(' '),
    paper.say('shortProbability', { a, probability: probabilityText(paper, comparison.total.probabilityLarger) }),
    paper.say('shortBalance', { move: paper.said(comparison.balanceMove, 'shareMove', { signed: true }) }),
  ]
}

function ofTrack(paper: Paper, each: TrackComparison): string {
  const names = { before: paper.nameOf(each.beforeId), after: paper.nameOf(each.afterId) }
  const gain = paper.said(each.gain.statement, 'share', { signed: true })
  if (!each.agreement) return paper.say('shortTrackAlone', { ...names, gain })
  return paper.say('shortTrack', {
    ...names, gain, expected: paper.said(each.agreement.expected.total.statement, 'share', { signed: true }),
    verdict: paper.say(`verdict_${each.agreement.verdict}`),
  })
}

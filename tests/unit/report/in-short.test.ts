/** What the report says first of the track: the pair asked for, or the best of the ladder. */
import { describe, expect, it } from 'vitest'
import { reportHtml, type ReportInput } from '@core/report'
import { analysed, demoExchange, reportInput } from './demo'

const exchange = demoExchange()
const plain = analysed(exchange)
const ranked = plain.matrix!.ranked.map(({ configurationId }) => configurationId)
const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)!.name

/** The demo as if every pair had been driven, in an order that begins with the worst. */
const pairs = ranked.flatMap((one, i) => ranked.slice(i + 1).map((other) => [other, one] as const)).reverse()
const [track] = plain.tracks
const [group] = track!.groups
const analysis = {
  ...plain, tracks: [{
    ...track!, groups: [{
      ...group!,
      comparisons: pairs.map(([beforeId, afterId]) => ({ ...group!.comparisons[0]!, beforeId, afterId })),
    }],
  }],
}

function trackSentences(scope: ReportInput['scope']): string[] {
  const html = reportHtml(reportInput(exchange, analysis, { scope }))
  const short = html.slice(html.indexOf('class="short"'), html.indexOf('</section>', html.indexOf('class="short"')))
  return [...short.matchAll(/On the track (.*?) held .*? against (.*?); /g)].map(([, after, before]) => `${after} / ${before}`)
}

describe('In short', () => {
  it('of a whole car names the track pairs of the best set-ups first, and no more than three', () => {
    const [best, ...others] = ranked.map(nameOf)
    expect(trackSentences({ kind: 'chassis' })).toEqual(others.slice(0, 3).map((other) => `${best} / ${other}`))
  })
  it('of a comparison names the pair asked for, whatever its place', () => {
    const [a, b] = ranked.slice(-2)
    expect(trackSentences({ kind: 'comparison', a: b!, b: a! })).toEqual([`${nameOf(a!)} / ${nameOf(b!)}`])
  })
})

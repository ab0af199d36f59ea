/** Remarks as a list, the grave ones first. */
import type { Remark } from '@core/calibration/types'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'

const RANK = { stop: 0, warning: 1, note: 2 } as const
const MARK = { stop: '■', warning: '▲', note: '–' } as const

/** Each sentence once, with a mark for how grave it is. */
export function remarks(paper: Paper, found: readonly Remark[]): Markup {
  const ordered = [...found].sort((a, b) => RANK[a.severity] - RANK[b.severity])
  const sentences = [...new Set(ordered.map((each) => `${MARK[each.severity]} ${paper.remark(each)}`))]
  if (sentences.length === 0) return html``
  return html`<h3>${paper.say('remarks')}</h3><ul class="remarks">${sentences.map((each) => html`<li>${each}</li>`)}</ul>`
}

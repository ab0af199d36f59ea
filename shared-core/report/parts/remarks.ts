/** Remarks as a list, the grave ones first. */
import { byGravity, type Remark } from '@core/remark'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'

const MARK = { stop: '■', warning: '▲', note: '–' } as const

/** Each sentence once, with a mark for how grave it is. */
export function remarks(paper: Paper, found: readonly Remark[]): Markup {
  const sentences = [...new Set(byGravity(found).map((each) => `${MARK[each.severity]} ${paper.remark(each)}`))]
  if (sentences.length === 0) return html``
  return html`<h3>${paper.say('remarks')}</h3><ul class="remarks">${sentences.map((each) => html`<li>${each}</li>`)}</ul>`
}

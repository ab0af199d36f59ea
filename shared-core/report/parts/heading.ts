/** What the paper is about, and when and with what it was made. */
import { html, type Markup } from '../html'
import type { Paper } from '../paper'

export function heading(paper: Paper): Markup {
  const { say, about, exchange, scope, part } = paper
  const title = scope.kind === 'chassis' ? exchange.chassis.name : `${paper.nameOf(scope.a)} / ${paper.nameOf(scope.b)}`
  const kind = [
    say(scope.kind === 'chassis' ? 'title' : 'titleComparison'), ...(part === 'annex' ? [say('annex')] : []),
    ...(scope.kind === 'chassis' ? [] : [exchange.chassis.name]),
  ].join(' · ')
  const made = `${about.madeAt.slice(0, 16).replace('T', ' ')} UTC`
  return html`<header><p class="kind">${kind}</p><h1>${title}</h1><p class="small">${say('made')} ${made} · ${
    say('version')} ${about.version}</p></header>`
}

/**
 * The report as self-contained HTML documents: no script, no reference to anything outside (pictures
 * stand in it as data), all texts escaped. One page to hand round, and its annex as a document of its own;
 * made for A4 and Letter, with or without colour.
 */
import { facesFor } from './faces'
import { html, type Markup } from './html'
import { paperOf, type Paper, type ReportInput } from './paper'
import { aero } from './parts/aero'
import { answerOf } from '@core/answer'
import { howSure } from './parts/answer'
import { costs } from './parts/costs'
import { equipment } from './parts/equipment'
import { heading } from './parts/heading'
import { inShort } from './parts/inShort'
import { method } from './parts/method'
import { page } from './parts/page'
import { pictures } from './parts/pictures'
import { runs } from './parts/runs'
import { behind, setUps } from './parts/setUps'
import { squat } from './parts/squat'
import { track } from './parts/track'
import { troubles } from './parts/troubles'
import { styleOf } from './style'

/** Markup that is code of ours, not text. */
const raw = (markup: string): Markup => ({ markup })

/**
 * The document's text.
 *
 * @param input data, results, version, fingerprint, units, language and what the report is about
 */
export function reportHtml(input: ReportInput): string {
  const paper = paperOf(input)
  const { exchange, about, language } = input
  const kind = paper.say(input.scope.kind === 'chassis' ? 'title' : 'titleComparison')
  const title = [`${exchange.chassis.name}: ${kind}`, ...(input.part === 'annex' ? [paper.say('annex')] : [])].join(', ')
  const foot = `Squatbench ${about.version}  ·  ${about.fingerprint.slice(0, 16)}`
  const body = html`<body>${input.part === 'page' ? page(paper) : annex(paper)}</body>`
  const style = styleOf(foot, facesFor(`${title}${foot}${body.markup}`, input.faces))
  const { markup } = html`<html lang="${language.tag}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:"><title>${title}</title><style>${raw(style)}</style></head>${body}</html>`
  return `<!doctype html>\n${markup}\n`
}

function annex(paper: Paper): Markup {
  const { say, analysis, about, exchange, scope, units } = paper
  const found = answerOf(analysis, exchange.chassis, {
    units, ...(scope.kind === 'comparison' ? { of: [scope.a, scope.b] } : {}),
  })
  return html`<div class="annex">${heading(paper)}${inShort(paper)}${found ? howSure(paper, found) : null}${setUps(paper)}${
    behind(paper)}${method(paper)}<section><h2>${say('fingerprint')}</h2><p class="mono">${about.fingerprint}</p><p class="small">${
    say('fingerprintWhat')}</p></section>${aero(paper)}${costs(paper)}${track(paper)}${
    analysis.airflows.map((session) => runs(paper, session))}${analysis.squats.map((each) => squat(paper, each))}${
    pictures(paper)}${equipment(paper)}${troubles(paper)}</div>`
}

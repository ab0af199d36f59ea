/**
 * The report as one self-contained HTML document: no script, no reference to anything outside (pictures
 * stand in it as data), all texts escaped. Two pages of summary, the rest as annex; made for A4 and
 * Letter, with or without colour.
 */
import { facesFor } from './faces'
import { html, type Markup } from './html'
import { paperOf, type Paper, type ReportInput } from './paper'
import { aero } from './parts/aero'
import { costs } from './parts/costs'
import { equipment } from './parts/equipment'
import { method } from './parts/method'
import { pictures } from './parts/pictures'
import { runs } from './parts/runs'
import { squat } from './parts/squat'
import { summary } from './parts/summary'
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
  const title = `${exchange.chassis.name}: ${paper.say(input.scope.kind === 'chassis' ? 'title' : 'titleComparison')}`
  const foot = `${exchange.chassis.name.slice(0, 60)}  ·  Squatbench ${about.version}  ·  ${about.fingerprint.slice(0, 16)}`
  const body = html`<body>${summary(paper)}${annex(paper)}</body>`
  const style = styleOf(foot, facesFor(`${title}${foot}${body.markup}`, input.faces))
  const { markup } = html`<html lang="${language.tag}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:"><title>${title}</title><style>${raw(style)}</style></head>${body}</html>`
  return `<!doctype html>\n${markup}\n`
}

function annex(paper: Paper): Markup {
  const { say, analysis, about } = paper
  return html`<div class="annex"><p class="kind">${say('annex')}</p>${method(paper)}<section><h2>${say('fingerprint')}</h2><p class="mono">${about.fingerprint}</p><p class="small">${say('fingerprintWhat')}</p></section>${aero(paper)}${costs(paper)}${track(paper)}${
    analysis.airflows.map((session) => runs(paper, session))}${analysis.squats.map((each) => squat(paper, each))}${pictures(paper)}${equipment(paper)}${troubles(paper)}</div>`
}

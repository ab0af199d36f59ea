/** The pictures that readings came from, as they were marked. */
import { CORNERS, type AirflowSession, type Picture, type Reading, type Session, type SquatSession } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { isInScope } from './inScope'

/** Pictures printed of one session; the record keeps all. */
const MOST_PICTURES = 24

/** One state or step that was read in a picture. */
interface Place { readonly name: string; readonly readings: readonly Reading[] }

export function pictures(paper: Paper): Markup {
  const parts = paper.exchange.sessions.filter(hasPictures).map((session) => ofSession(paper, session))
  if (parts.every(({ markup }) => markup === '')) return html``
  return html`<section><h2>${paper.say('pictures')}</h2>${parts}</section>`
}

type Pictured = AirflowSession | SquatSession
const hasPictures = (session: Session): session is Pictured => session.kind === 'airflow' || session.kind === 'squat'

function ofSession(paper: Paper, session: Pictured): Markup {
  const places = session.kind === 'airflow' ? placesOfRuns(paper, session) : placesOfSteps(paper, session)
  const figures = session.pictures.flatMap((picture) => {
    const own = places
      .map(({ name, readings }) => ({ name, readings: readings.filter((each) => isFrom(each, picture)) }))
      .filter(({ readings }) => readings.length > 0)
    return own.length > 0 ? [figure(paper, picture, own)] : []
  })
  if (figures.length === 0) return html``
  const more = figures.length - MOST_PICTURES
  return html`<h3>${session.name}</h3><div class="two">${figures.slice(0, MOST_PICTURES)}</div>${
    more > 0 ? html`<p class="small">${paper.say('more', { count: more })}</p>` : null}`
}

const isFrom = ({ from, setAside }: Reading, { id }: Picture): boolean =>
  from.kind === 'picture' && from.pictureId === id && setAside === null

const placesOfRuns = (paper: Paper, session: AirflowSession): Place[] => session.runs
  .filter((run) => run.setAside === null && isInScope(paper, run.configurationId))
  .flatMap((run) => run.states.map((state, i) => ({
    name: `${run.name}, ${i + 1}: ${paper.say(`air_${run.kind}_${state.air}`)}`,
    readings: run.readings.filter(({ stepId }) => stepId === state.id),
  })))

const placesOfSteps = (paper: Paper, session: SquatSession): Place[] => session.steps.map((step, i) => ({
  name: `${paper.say('step')} ${i + 1}: ${paper.say(step.branch)}`,
  readings: session.readings.filter(({ stepId }) => stepId === step.id),
}))

function figure(paper: Paper, picture: Picture, places: readonly Place[]): Markup {
  const about = `${picture.widthPx} × ${picture.heightPx} px, ${paper.say('marksCount', { count: picture.marks.length })}`
  return html`<figure class="picture"><figcaption>${picture.fileName} <span class="ends">${about}</span></figcaption>${
    picture.thumbnail ? html`<img src="${picture.thumbnail}" alt="${paper.say('pictureMarked', { name: picture.fileName })}">` : null}${
    places.map(({ name, readings }) => html`<p class="small"><strong>${name}.</strong> ${heights(paper, readings)}</p>`)}</figure>`
}

const heights = (paper: Paper, readings: readonly Reading[]): string => CORNERS
  .flatMap((corner) => readings.filter((each) => each.corner === corner))
  .map((each) => `${paper.say(each.corner)} ${paper.show(each.shownMm, 'length', { u: uOf(each) })} (u ${paper.show(uOf(each), 'length', { u: uOf(each) })})`)
  .join('; ')

/** What the picture itself brings: its own part and those it shares with other readings, mm. */
const uOf = ({ from }: Reading): number =>
  (from.kind === 'picture' ? Math.hypot(from.uMm, ...(from.shared ?? []).map(({ contributionMm }) => contributionMm)) : 0)

import { describe, expect, it } from 'vitest'
import { ENGLISH, reportHtml, type ReportInput } from '@core/report'
import { facesFor, spansOf } from '@core/report/faces'
import { produce } from 'immer'
import { analysed, demoExchange, reportInput } from './demo'

const exchange = demoExchange()
const analysis = analysed(exchange)
const written = (more: Partial<ReportInput> = {}) => reportHtml(reportInput(exchange, analysis, more))
const page = (more: Partial<ReportInput> = {}) => written({ part: 'page', ...more })
const textOf = (markup: string) => markup.replace(/<style>.*?<\/style>/s, '').replace(/<[^>]+>/g, ' ').replace(/[ \n]+/g, ' ')

describe('the report', () => {
  const whole = written()

  it('stands alone: no script, nothing fetched, a policy that forbids both', () => {
    expect(whole).not.toMatch(/<script|<iframe|<object|<link|javascript:|\son\w+=/i)
    expect(whole).not.toMatch(/https?:|url\(|@import|src=/)
    expect(whole).toContain('default-src \'none\'')
    expect(whole.startsWith('<!doctype html>')).toBe(true)
  })

  it('has one page with the answer, the car, the ladder, the room, the conditions and the fingerprint', () => {
    const text = textOf(page())
    for (const said of ['Presses hardest at', 'Wing and skirts', 'Load at 19.3', 'Clearance under the tray', 'Conditions', 'Air: 1.20']) {
      expect(text).toContain(said)
    }
    expect(text).toContain(reportInput(exchange, analysis).about.fingerprint)
    expect(text).not.toContain('Readings')
    expect(page()).toMatch(/<figure class="car">/)
    const asked = produce(exchange, (draft) => { draft.chassis.askedSpeedMs = 21 })
    expect(textOf(reportHtml(reportInput(asked, analysis, { part: 'page' })))).toMatch(/Presses hardest at 21\sm\/s/)
  })

  it('keeps a car’s name out of its style sheet', () => {
    const named = produce(exchange, (draft) => { draft.chassis.name = 'Zzyx "; } body { html' })
    const sheetOf = (markup: string) => /<style>(.*?)<\/style>/s.exec(markup)![1]!.replace(/[\da-f]{16}/, 'fingerprint')
    expect(sheetOf(reportHtml(reportInput(named, analysis)))).toBe(sheetOf(whole))
  })

  it('holds answers, method, limits, cautions, version and fingerprint', () => {
    const text = textOf(whole)
    for (const part of ['In short', 'Method', 'Limits of this method', 'Take care', 'LiPo', '0.0.0-test', 'Squat test: ', 'Readings']) {
      expect(text).toContain(part)
    }
    expect(text).toContain(reportInput(exchange, analysis).about.fingerprint)
    for (const { name } of exchange.chassis.configurations) expect(text).toContain(name)
  })

  it('draws curves, heights, ladder, budget and repeats, each with a title for those who cannot see it', () => {
    const both = page() + whole
    expect(both.match(/<svg viewBox[^>]*role="img" aria-label="[^"]+"><title>/g)!.length).toBeGreaterThan(10)
    expect(both).not.toMatch(/NaN|undefined|Infinity|\[object/)
  })

  it('prints a run with the tray on the ground as at least, never as a plain number', () => {
    const bounds = analysis.airflows.flatMap(({ runs }) => runs).filter((run) => run.totalN.statement.kind === 'atLeast')
    expect(bounds.length).toBeGreaterThan(0)
    for (const run of bounds) {
      const from = whole.indexOf(`<th scope="rowgroup" colspan="5">${run.name}`)
      const rows = whole.slice(from, whole.indexOf('</tbody>', from))
      expect(rows.match(/at least [\d.]+/g)!.length).toBe(4)
      expect(rows).not.toMatch(/class="value">[\d.]+\u00a0N<\/span>(?!.*at least)/)
    }
  })

  it('tells what downforce costs: drag, load per drag and laps, and what a lap assumes', () => {
    const text = textOf(whole)
    const from = text.indexOf('What downforce costs')
    expect(from).toBeGreaterThan(0)
    const part = text.slice(from)
    for (const said of ['CdA', 'Load per drag', 'Laps are worked out, not driven']) expect(part).toContain(said)
    for (const { name } of analysis.costs.courses) expect(part).toContain(name)
    const pair = textOf(written({ scope: { kind: 'comparison', a: 'tray-plain', b: 'tray-skirts' } }))
    expect(pair).toContain('What downforce costs')
  })

  it('says the same twice, and other units in other numbers', () => {
    expect(written()).toBe(whole)
    const units = {
      force: 'poundForce', length: 'inch', speed: 'milePerHour', mass: 'ounce', temperature: 'fahrenheit', decimalMark: 'comma',
    } as const
    const pounds = textOf(written({ units }))
    expect(pounds).toMatch(/\d,\d+\u00a0lbf/)
    expect(pounds).toMatch(/\d,\d+\u00a0in/)
    expect(pounds).toMatch(/mph/)
    expect(pounds).not.toMatch(/\d\u00a0(N|mm|m\/s)(?![\w/\u00b2])/)
    expect(pounds).not.toMatch(/\d\.\d+\u00a0(lbf|in|mph|%|in\u00b2)/)
  })

  it('of a car that met no air yet gives the rates, and the masses as corrected by the check', () => {
    const still = { ...exchange, sessions: exchange.sessions.filter(({ kind }) => kind === 'squat') }
    const text = textOf(reportHtml(reportInput(still, analysed(still))))
    expect(text.match(/Rate of the (front|rear) axle, both wheels: \d\.\d+\s?N\/mm/g)).toHaveLength(2)
    expect(text).toContain('No set-up has been read in moving air yet.')
    expect(text).toMatch(/Check of Kitchen scale: true over shown 0\.99\d+ \(u 0\.000\d+\)/)
  })

  it('of a pair holds that pair alone', () => {
    const text = textOf(written({ scope: { kind: 'comparison', a: 'tray-plain', b: 'tray-skirts' } }))
    expect(text).toContain('Tray with skirts less Tray, no skirts')
    expect(text).not.toContain('Wing and skirts')
  })

  it('of a car that was only named says that nothing was read', () => {
    const bare = produce(exchange, (draft) => { draft.sessions = [] })
    const text = textOf(reportHtml(reportInput(bare, analysed(bare))))
    expect(text).toContain('No set-up has been read in moving air yet.')
    expect(text).not.toMatch(/NaN|undefined/)
  })

  it('escapes whatever the file calls things', () => {
    const hostile = '</style><script>alert(1)</script>"\'&'
    const named = produce(exchange, (draft) => {
      draft.chassis.name = hostile
      for (const each of draft.chassis.configurations) each.name = hostile
      for (const each of draft.chassis.loads) each.name = hostile
      for (const each of draft.sessions) each.name = hostile
    })
    const renamed = { ...analysis, ...{
      configurations: analysis.configurations.map((each) => ({ ...each, name: hostile })),
      squats: analysis.squats.map((each) => ({ ...each, name: hostile })),
    } }
    const markup = reportHtml(reportInput(named, renamed))
    expect(markup).not.toContain('<script')
    expect(markup.match(/<\/style>/g)).toHaveLength(1)
  })

  it('speaks the language it is given', () => {
    const short = { ...ENGLISH.sentences, short: 'Kurz' }
    expect(textOf(written({ language: { ...ENGLISH, tag: 'xx', sentences: short } }))).toContain('Kurz')
    expect(written({ language: { ...ENGLISH, tag: 'en' } })).toBe(whole)
  })

  it('shows the picture a height was read from, with what it gave, and none that gave nothing', () => {
    const thumbnail = 'data:image/jpeg;base64,AAAA'
    const pictured = produce(exchange, (draft) => {
      const session = draft.sessions.find((each) => each.kind === 'airflow')!
      if (session.kind !== 'airflow') return
      const blank = {
        kind: 'still' as const, sizeBytes: 1, fingerprint: '-', addedAt: '2031-05-04T09:30:00.000Z', widthPx: 640, heightPx: 360,
        thumbnail, scale: null, lensK1: null, exposureS: null, marks: [], windows: [],
      }
      session.pictures.push({ ...blank, id: 'seen', fileName: 'side & <front>.jpg' }, { ...blank, id: 'unused', fileName: 'unused.jpg' })
      session.runs[0]!.readings[0]!.from = { kind: 'picture', pictureId: 'seen', uMm: 0.3, shared: [{ source: 'a', contributionMm: -0.4 }] }
    })
    const report = reportHtml(reportInput(pictured, analysis))
    expect(report.split(`<img src="${thumbnail}" alt="side &amp; &lt;front&gt;.jpg with its marks">`)).toHaveLength(2)
    // The quadrature sum of 0.3 and 0.4 mm.
    expect(textOf(report)).toMatch(/front left [\d.−]+\smm \(u 0\.50\smm\)/)
    expect(report).not.toContain('unused.jpg')
    expect(report).not.toMatch(/<script|https?:/)
  })
})

describe('the faces of a report', () => {
  const face = (range: string, base64: string) => ({ family: 'Bench', weight: '400', range, base64 })
  const [latin, more, cyrillic] = [face('U+0000-00FF', 'AAAA'), face('U+0100-017F', 'BBBB'), face('U+0400-04FF', 'CCCC')]

  it('stand in it as data, those that it has a character for, and nothing else is fetched', () => {
    const named = produce(exchange, (draft) => { draft.chassis.name = 'Čáp' })
    const text = reportHtml({ ...reportInput(named, analysis), faces: [latin, more, cyrillic] })
    expect(text.match(/src: url\([^)]*\)/g)).toEqual(['AAAA', 'BBBB'].map((data) => `src: url(data:font/woff2;base64,${data})`))
    expect(text.match(/url\(/g)).toHaveLength(2)
    expect(text).toContain('font-src data:')
    expect(written({ faces: [latin, more] })).not.toContain('BBBB')
  })

  it('are told apart by code points, single ones and spans', () => {
    expect(facesFor('a–z', [face('U+2013', 'D'), face('U+2014-201F,U+62', 'E')]).map(({ base64 }) => base64)).toEqual(['D'])
    expect(() => spansOf('2013')).toThrow('no part of a unicode-range')
  })
})

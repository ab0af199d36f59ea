/** A drawn chart as an SVG document of its own: the same scales and series, in shapes instead of pixels. */
import type { Chart } from './kit'
import type { ChartPoint, Series } from './series'

export interface SvgLook {
  readonly title: string
  readonly xTitle: string
  readonly yTitle: string
  /** Colour of a role. */
  readonly role: (name: string) => string
  /** A tick's figure in the language. */
  readonly tick: (value: number, all: readonly { readonly value: number }[]) => string
  /** What is in the legend: colour by role, and its words. */
  readonly legend: readonly { readonly role: string; readonly label: string }[]
}

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (each) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[each]!)
const r = (value: number): string => value.toFixed(1)

const HEAD = 34
const LEGEND_LINE = 20

/** Text of the document. Hidden series are left out. */
export function chartSvg(chart: Chart, series: readonly Series[], look: SvgLook): string {
  const { scales, chartArea: area } = chart
  const [x, y] = [scales['x']!, scales['y']!]
  const [width, height] = [chart.width, chart.height + HEAD + LEGEND_LINE * look.legend.length]
  const [ink, line] = [look.role('ink'), look.role('line')]
  const at = ({ x: px, y: py }: ChartPoint): string => `${r(x.getPixelForValue(px))} ${r(y.getPixelForValue(py))}`
  const text = (px: number, py: number, words: string, more = ''): string =>
    `<text x="${r(px)}" y="${r(py)}" fill="${ink}" ${more}>${escaped(words)}</text>`
  const grid = [
    ...x.ticks.map(({ value }) => {
      const px = x.getPixelForValue(value)
      return `<path d="M${r(px)} ${r(area.top)}V${r(area.bottom)}" stroke="${line}"/>`
        + text(px, area.bottom + 18, look.tick(value, x.ticks), 'text-anchor="middle"')
    }),
    ...y.ticks.map(({ value }) => {
      const py = y.getPixelForValue(value)
      return `<path d="M${r(area.left)} ${r(py)}H${r(area.right)}" stroke="${value === 0 ? ink : line}"/>`
        + text(area.left - 6, py + 4, look.tick(value, y.ticks), 'text-anchor="end"')
    }),
  ]
  const shapes = series.flatMap((each, i): string[] => {
    if (each.hidden) return []
    const colour = look.role(each.role)
    switch (each.look) {
      case 'edge': return []
      case 'band': {
        const back = [...(series[i + 1]?.points ?? [])].reverse()
        return [`<path d="M${[...each.points, ...back].map(at).join('L')}Z" fill="${colour}" fill-opacity="0.18"/>`]
      }
      case 'line': {
        const dash = each.dashed ? ' stroke-dasharray="7 5"' : ''
        return [`<path d="M${each.points.map(at).join('L')}" fill="none" stroke="${colour}" stroke-width="2"${dash}/>`]
      }
      case 'points': return each.points.map((point) => pointShape(point, colour, each.hollow ? look.role('paper') : colour))
    }
  })
  function pointShape(point: ChartPoint, colour: string, fill: string): string {
    const [px, py] = [x.getPixelForValue(point.x), y.getPixelForValue(point.y)]
    const bars = [
      ...(point.uy ? [`M${r(px)} ${r(y.getPixelForValue(point.y - point.uy))}V${r(y.getPixelForValue(point.y + point.uy))}`] : []),
      ...(point.ux ? [`M${r(x.getPixelForValue(point.x - point.ux))} ${r(py)}H${r(x.getPixelForValue(point.x + point.ux))}`] : []),
    ].join('')
    return `${bars && `<path d="${bars}" stroke="${colour}" stroke-width="1.2"/>`}`
      + `<circle cx="${r(px)}" cy="${r(py)}" r="4.5" fill="${fill}" stroke="${colour}" stroke-width="1.6"/>`
  }
  const legend = look.legend.map(({ role, label }, i) => {
    const py = chart.height + 16 + LEGEND_LINE * i
    return `<path d="M${r(area.left)} ${r(py - 4)}h22" stroke="${look.role(role)}" stroke-width="4"/>`
      + text(area.left + 30, py, label)
  })
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${r(width)} ${r(height)}" width="${r(width)}" height="${r(height)}" `
      + 'font-family="Sofia Sans Semi Condensed, sans-serif" font-size="13">',
    `<title>${escaped(look.title)}</title><rect width="100%" height="100%" fill="${look.role('paper')}"/>`,
    text(area.left, 20, look.title, 'font-size="17" font-weight="600"'),
    `<g transform="translate(0 ${HEAD})">`, ...grid,
    `<clipPath id="area"><rect x="${r(area.left)}" y="${r(area.top)}" width="${r(area.width)}" height="${r(area.height)}"/></clipPath>`,
    `<g clip-path="url(#area)">`, ...shapes, '</g>',
    text((area.left + area.right) / 2, area.bottom + 38, look.xTitle, 'text-anchor="middle" font-size="15"'),
    `<g transform="translate(14 ${r((area.top + area.bottom) / 2)}) rotate(-90)">`,
    text(0, 0, look.yTitle, 'text-anchor="middle" font-size="15"'), '</g>', ...legend, '</g></svg>',
  ].join('\n')
}

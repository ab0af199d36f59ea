/** The look of the paper: ink on white, one column, nothing that a printer without colour would lose. */
import { faceRules, type ReportFace } from './faces'
import { cssString } from './html'

const FAMILY = "'Sofia Sans', 'Squatbench Signs', sans-serif"

/**
 * Serves a document and a shadow tree alike. No text of the builder's is in it.
 *
 * @param foot what stands at the foot of each page, of ours alone
 * @param faces what the document is written in
 */
export const styleOf = (foot: string, faces: readonly ReportFace[]): string => `
${faceRules(faces)}@page { margin: 15mm 14mm 17mm; }
@page {
  @bottom-left { content: ${cssString(foot)}; font: 7.5pt ${FAMILY}; color: #444; }
  @bottom-right { content: counter(page) " / " counter(pages); font: 7.5pt ${FAMILY}; color: #444; }
}
* { box-sizing: border-box; }
html, :host { font: 9.2pt/1.38 ${FAMILY}; color: #111; background: #fff; }
body, :host { margin: 0 auto; max-width: 190mm; font-variant-numeric: tabular-nums lining-nums; }
@media screen { body, :host { padding: 10mm 8mm; } }
h1 { font-size: 20pt; line-height: 1.1; margin: 0; font-weight: 650; letter-spacing: -0.01em; overflow-wrap: anywhere; }
h2 { font-size: 12.5pt; margin: 6mm 0 2mm; padding-top: 1.4mm; border-top: 0.6mm solid #111; break-after: avoid; }
h3 { font-size: 10pt; margin: 4mm 0 1.2mm; break-after: avoid; overflow-wrap: anywhere; }
p { margin: 0 0 1.6mm; max-width: 150mm; }
ul { margin: 0 0 2mm; padding-left: 4.5mm; }
li { margin: 0 0 0.8mm; max-width: 165mm; overflow-wrap: anywhere; }
.kind { font-size: 9.2pt; text-transform: uppercase; letter-spacing: 0.09em; margin: 0 0 1mm; color: #333; }
.small, .ends, .legend { font-size: 7.8pt; color: #333; }
.page header { display: flex; flex-wrap: wrap; gap: 0 5mm; align-items: baseline; justify-content: space-between; }
.page header .kind { flex: 1 0 100%; margin: 0; } .page header .small { margin: 0; } .page h1 { font-size: 17pt; }
.page section, .page figure { margin: 0 0 1.2mm; } .page p.small { margin: 0 0 1mm; max-width: none; line-height: 1.25; }
.page .wide svg { max-width: 130mm; margin: 0 auto; } .page figcaption { font-size: 8pt; margin: 0; } .page .two { gap: 0 5mm; } .page .two svg { max-height: 35mm; } .page .legend { gap: 0 3mm; margin: 0; }
.answer { border-top: 0.6mm solid #111; padding-top: 1.2mm; }
.page .answer { margin-top: 1.5mm; }
.answer h2 { border: 0; margin: 0; padding: 0; font-size: 9.2pt; font-weight: 500; } .answer p { margin: 0; max-width: none; }
.answer .said { display: flex; flex-wrap: wrap; gap: 0 4mm; align-items: baseline; }
.answer-name { font-size: 15pt; font-weight: 650; line-height: 1.2; overflow-wrap: anywhere; }
.answer-load { font-size: 19pt; font-weight: 650; line-height: 1.2; } .answer-beside { font-size: 9.6pt; }
.answer dl { margin: 1mm 0; } .answer dl div { display: grid; grid-template-columns: 28mm 1fr; gap: 0 3mm; padding: 0.5mm 0; border-top: 0.15mm solid #bbb; }
.answer dt { color: #444; font-size: 8.4pt; } .answer dd { margin: 0; font-size: 9pt; line-height: 1.3; }
.car svg { max-width: 94mm; margin: 0 auto; } .car p { max-width: none; margin: 0; }
.car-ground { stroke: #111; stroke-width: 2; fill: none; } .car-hatch { stroke: #888; stroke-width: 1; fill: none; }
.car-shell { fill: #f2f2f2; stroke: #111; stroke-width: 1.6; } .car-tray { stroke: #111; stroke-width: 5; fill: none; }
.car-trayUnknown { stroke: #111; stroke-width: 3; stroke-dasharray: 4 5; fill: none; }
.car-trayDown { fill: #b00; stroke: #b00; stroke-width: 2; } .car-wheel { fill: none; stroke: #333; stroke-width: 5; }
.car-shaft { fill: none; stroke: #333; stroke-width: 2; } .car-front { fill: #0b5590; } .car-rear { fill: #9c4208; }
.car-hub { fill: #fff; stroke-width: 2.5; } .car-open { fill: #fff; stroke-width: 2.5; stroke-dasharray: 6 4; }
.car-hub.of-front, .car-open.of-front { stroke: #0b5590; } .car-hub.of-rear, .car-open.of-rear { stroke: #9c4208; }
.car-whisker { fill: none; stroke: #111; stroke-width: 2; } .car-room { fill: none; stroke: #111; stroke-width: 1.4; }
.car-bag { fill: #ddd; stroke: #111; stroke-width: 1.4; } .car-centre { fill: #111; stroke: #111; stroke-width: 2; }
.car-weight { fill: none; stroke: #111; stroke-width: 3; } .car-axis { stroke: #888; stroke-dasharray: 14 4 3 4; fill: none; }
svg .car-load, svg .car-bound { font-weight: 650; } svg .car-bound { font-style: italic; } svg .car-down { fill: #b00; font-weight: 650; }
svg .car-name { fill: #444; }
.short li { font-size: 10pt; }
.remarks { list-style: none; padding: 0; font-size: 8.6pt; columns: 2; column-gap: 7mm; }
.remarks li { break-inside: avoid; padding-left: 3.6mm; text-indent: -3.6mm; }
table { border-collapse: collapse; width: 100%; font-size: 8.2pt; margin: 0 0 3mm; }
caption { text-align: left; font-weight: 650; padding-bottom: 1mm; break-after: avoid; }
th, td { text-align: left; vertical-align: top; padding: 0.8mm 2.4mm 0.8mm 0; border-bottom: 0.15mm solid #bbb; overflow-wrap: break-word; }
thead { display: table-header-group; }
thead th { border-bottom: 0.35mm solid #111; font-weight: 650; vertical-align: bottom; overflow-wrap: normal; }
tbody th { font-weight: 600; }
tr { break-inside: avoid; }
td.number, th.number { text-align: right; white-space: nowrap; }
.value { font-weight: 600; white-space: nowrap; }
.bound { white-space: normal; font-style: italic; border-bottom: 0.3mm dotted #111; }
.runs tbody { break-inside: avoid; } .runs th[scope='rowgroup'] { padding-top: 1.8mm; border-bottom: 0; } .runs tbody th[scope='row'] { font-weight: 400; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; align-items: start; }
figure { margin: 0 0 3mm; break-inside: avoid; }
img { width: 100%; height: auto; display: block; border: 0.15mm solid #777; margin-bottom: 1mm; }
.picture p { margin: 0 0 0.8mm; }
figcaption { font-weight: 650; font-size: 8.6pt; margin-bottom: 0.8mm; }
svg { width: 100%; height: auto; display: block; overflow: visible; }
svg text { fill: #111; } svg text:not([font-size]) { font-size: 10px; } svg .soft { fill: #444; } svg .strong { font-weight: 650; }
.wide svg text:not([font-size]) { font-size: 11px; }
.grid { stroke: #d4d4d4; stroke-width: 0.6; } .axis { stroke: #111; stroke-width: 1; fill: none; }
.line { fill: none; stroke: #111; stroke-width: 1.7; } .thin { stroke-width: 0.9; }
.dashed { stroke-dasharray: 7 4; } .dotted { stroke-dasharray: 1.5 3; } .dashDot { stroke-dasharray: 9 3 2 3; }
.area { fill: #000; fill-opacity: 0.11; stroke: none; }
.mark { fill: #111; stroke: #111; stroke-width: 1.2; } .mark.hollow { fill: #fff; }
.whisker { stroke: #111; stroke-width: 0.7; fill: none; } .heavy { stroke-width: 1.5; }
.bar { fill: #777; } .hatch { stroke: #555; stroke-width: 0.7; fill: none; } .ground { stroke: #111; stroke-width: 1.6; fill: none; }
.legend { display: flex; flex-wrap: wrap; gap: 0 4mm; margin: 0.5mm 0 0; max-width: none; }
.legend span { display: inline-flex; align-items: center; gap: 1mm; }
.legend .sample { width: 6.5mm; height: 3.2mm; }
.box { border: 0.35mm solid #111; padding: 2.2mm 3mm 1.2mm; margin: 3mm 0; break-inside: avoid; }
.box h3 { margin: 0 0 1mm; }
.box li { max-width: none; }
.mono { font-size: 8.2pt; letter-spacing: 0.04em; overflow-wrap: anywhere; }
`

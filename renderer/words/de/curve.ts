import { UNFITTED_DE } from '@core/report/words'
import type { curve as en } from '../en/curve'
import type { Words } from '../types'

export const curve: Words<typeof en> = {
  which: 'Welche Kennlinie', touchLine: 'Unterboden setzt auf', dropU: 'u der Absenkung', force: 'Kraft auf der Achse', drop: 'Absenkung', chart: 'Last und Absenkung', chartTitle: '{axle}: Absenkung über der Kraft',
  fit: 'Kennlinie', touched: 'Unterboden lag auf: nur eine Grenze', unused: 'nicht verwendet', residuals: 'Abstand der Ablesungen von der Kennlinie, in u', residualAxis: 'Rest / u', branch: 'Ast', remark: 'Bemerkung',
  emptyTitle: 'Noch keine Kennlinie', empty: 'Eine Kennlinie braucht einen Nullpunkt und mindestens drei Gewichte.',
  refused: {
    noZero: 'Es gibt noch keinen Nullpunkt: Lies die vier Ecken ohne Gewichte ab.', noReadings: 'Noch ist kein Schritt mit Gewicht abgelesen.',
    tooFewPoints: 'Noch zu wenige Gewichte: Lies mindestens drei verschiedene ab.', noDrop: 'Diese Achse hat sich nicht bewegt: Leg Gewichte näher zu ihr.',
    unknownGauge: 'Das Messgerät dieses Einfedertests steht nicht mehr in der Liste des Autos.', noShapeFits: 'Keine Form passte. Suche nach einer Ablesung, die herausfällt, oder nimm mehr Gewichte.',
  },
  notFitted: UNFITTED_DE,
  forceCorner: 'Kraft auf der Ecke', supportHow: 'Gewicht der Belege: wie viel der Ablesungen für jede Form spricht (Akaike-Gewicht). Hat keine fast alles, steckt der Zweifel zwischen den Formen in jedem Ergebnis.',
  shapes: 'Welche Form', shapeHead: 'Form', weight: 'Gewicht der Belege', dof: 'Freiheitsgrade', parameters: 'Parameter, u',
  shape: { linear: 'gerade', threshold: 'mit Schwelle', progressive: 'progressiv', cubic: 'progressiv, kubisch', stop: 'zwei Steigungen', thresholdStop: 'Schwelle, zwei Steigungen' },
  parameter: {
    rateNPerMm: 'Rate', fullRateNPerMm: 'Rate bei voller Last', halfRateNPerMm: 'Rate bei halber Last', thresholdN: 'Schwelle', kneeMm: 'Knick bei', stopRateNPerMm: 'Rate nach dem Knick',
  },
  friction: 'Reibung, halber Abstand zwischen Hinweg und Rückweg', frictionFrom: { branches: 'aus beiden Ästen', assumed: 'angenommen', none: 'keine abgelesen: nur ein Ast' },
  theory: 'Nach den Maßen von {name}', theoryShort: '{name}, nach ihren Maßen', gravity: 'Fallbeschleunigung', gravityFrom: { place: 'an deinem Ort', standard: 'Normwert, 9,80665 m/s²' },
  axleRate: 'Federrate der Achse', wheelRate: 'Radfederrate', rateAt: 'bei einer Absenkung von', rateBeyond: 'Außerhalb des Abgelesenen: Dort wird keine Rate genannt.', rateShared: 'Für beide Räder zusammen: die Hälfte für eines. Ohne Reibung.',
  straight: {
    enough: 'Eine Gerade genügt: Belege {support}.',
    open: 'Eine Gerade genügt vielleicht (Belege {straight}); die Ablesungen neigen zur Form „{shape}“ ({support}).',
    notEnough: 'Eine Gerade genügt nicht (Belege {straight}): Am besten passt die Form „{shape}“ ({support}).',
  },
  remarks: 'Gut zu wissen', noRemarks: 'Nichts fällt auf.', try: 'Eine Absenkung umrechnen', forceOn: 'Kraft, {axle}',
}

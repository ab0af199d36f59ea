import type { curve as en } from '../en/curve'
import type { Words } from '../types'

export const curve: Words<typeof en> = {
  which: 'Welche Kennlinie', touchLine: 'Unterboden setzt auf', dropU: 'u des Absinkens', force: 'Kraft auf der Achse', drop: 'Absinken', chart: 'Last und Absinken', chartTitle: '{axle}: Absinken über der Kraft',
  fit: 'Kennlinie', touched: 'Unterboden lag auf: nur eine Schranke', unused: 'nahm nicht teil', residuals: 'Was übrig bleibt', residualAxis: 'Rest / u', branch: 'Seite', remark: 'Bemerkung',
  emptyTitle: 'Noch keine Kennlinie', empty: 'Eine Kennlinie braucht eine Null und mindestens drei Gewichte.',
  refused: {
    noZero: 'Es gibt noch keine Null: lies die vier Ecken ohne Gewichte ab.', noReadings: 'Noch kein Schritt mit Gewicht ist abgelesen.',
    tooFewPoints: 'Noch zu wenige Gewichte: lies mindestens drei verschiedene ab.', noDrop: 'Diese Achse hat sich nicht bewegt: lege Gewichte näher zu ihr.',
    unknownGauge: 'Das Messmittel dieses Einfederns steht nicht mehr in der Liste des Autos.', noShapeFits: 'Keine Form passte. Suche eine Ablesung, die heraussticht, oder nimm mehr Gewichte.',
  },
  shapes: 'Welche Form', shapeHead: 'Form', weight: 'Stütze', dof: 'Freiheitsgrade', parameters: 'Parameter ± u',
  shape: { linear: 'gerade', threshold: 'mit Schwelle', progressive: 'progressiv', cubic: 'progressiv, kubisch', stop: 'mit Anschlag', thresholdStop: 'Schwelle und Anschlag' },
  parameter: {
    rateNPerMm: 'Rate', fullRateNPerMm: 'Rate bei voller Last', halfRateNPerMm: 'Rate bei halber Last', thresholdN: 'Schwelle', kneeMm: 'Knick bei', kneeN: 'Knick bei', stopRateNPerMm: 'Rate nach dem Anschlag', afterRateNPerMm: 'Rate nach dem Anschlag', frictionN: 'Reibung',
    growthNPerMm2: 'Zunahme N/mm²', quadraticNPerMm2: 'Zunahme N/mm²', cubicNPerMm3: 'dritte Ordnung N/mm³',
  },
  friction: 'Reibung, halber Abstand zwischen hinauf und zurück', frictionFrom: { branches: 'aus beiden Ästen', assumed: 'angenommen', none: 'keine abgelesen: nur ein Ast' },
  theory: 'Nach den Maßen von {name}', theoryShort: '{name}, nach den Maßen', gravity: 'Schwere', gravityFrom: { place: 'deines Ortes', standard: 'nach Norm, 9,80665 m/s²' },
  axleRate: 'Rate der Achse', wheelRate: 'Radrate', rateAt: 'beim Absinken von', rateBeyond: 'Außerhalb des Abgelesenen: dort wird keine Rate genannt.', rateShared: 'Für beide Räder zusammen: die Hälfte für eines. Ohne Reibung.',
  straight: {
    enough: 'Eine Gerade genügt: {support} der Stütze.',
    open: 'Eine Gerade mag genügen ({straight} der Stütze); die Ablesungen neigen zur Form „{shape}“ ({support}).',
    notEnough: 'Eine Gerade genügt nicht ({straight} der Stütze): die Ablesungen wollen die Form „{shape}“ ({support}).',
  },
  remarks: 'Was zu wissen ist', noRemarks: 'Nichts sticht heraus.', try: 'Ein Absinken lesen', forceOn: 'Kraft, {axle}',
}

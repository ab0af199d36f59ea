import type { squat as en } from '../en/squat'
import type { Words } from '../types'

export const squat: Words<typeof en> = {
  caution: 'Stell das Auto mit ausgebautem Akku auf einen festen Tisch. Leg Gewichte langsam auf, über dem Chassis, nie über Händen oder Füßen. Lass Bleischrot in geschlossenen Beuteln.',
  emptyTitle: 'Drück das Auto nieder und lies ab, wie weit es einfedert', empty: 'Lies die vier Ecken unbelastet ab, dann mit jedem Gewicht, hinauf und wieder zurück.', start: 'Einfedertest beginnen',
  needGauge: 'Gib dem Auto zuerst ein Messgerät für Höhen.', another: 'Noch ein Einfedertest', which: 'Einfedertest', name: 'Einfedertest {count}', nameLabel: 'Name',
  how: 'So wird gemessen', gauge: 'Messgerät', noGauge: 'kein Messgerät', orderLabel: 'Reihenfolge der Gewichte', order: { upDown: 'hinauf, dann zurück', upOnly: 'nur hinauf', random: 'gemischt' },
  datumAsRuns: 'wie die Läufe im Luftstrom', settleLabel: 'Vor jeder Ablesung', settle: { none: 'nichts', tap: 'auf den Tisch klopfen', bounce: 'zweimal durchfedern' },
  friction: 'Angenommene Reibung, {axle}', frictionLabel: 'Angenommene Reibung', frictionHow: 'nur wo kein Entlasten abgelesen wird', wished: 'Gut genug',
  wishedForce: 'Gut genug: bei einer Kraft von', wishedWidth: '… auf ±', wishedShort: 'gut genug: ±{width} bei {force}',
  readings: 'Was das Messgerät zeigt, {unit}', step: 'Schritt', stepNo: 'Schritt {count}', foldedSteps: 'Rampe {ramp}: Schritte {from} bis {to} zeigen', touched: 'Setzt auf', touchedAxle: 'Setzt auf, {axle}',
  putAside: 'Beiseitelegen', takeBack: 'Zurückholen', retyped: 'neu getippt', emptied: '{place}: geleert', was: 'Neu getippt; vorher: {value}',
  place: 'Nächster Schritt: was auf dem Auto liegt', load: 'Gewicht', weighFirst: 'Wiege zuerst ein paar Gewichte.', x: 'x hinter der Vorderachse', y: 'y nach rechts', uPlace: 'u der Lage',
  apart: 'jedes Gewicht an seinem eigenen Platz', takeUseful: 'Die nützlichsten Gewichte nehmen',
  add: { loading: 'Neuer Schritt: {mass}, mehr', unloading: 'Neuer Schritt: {mass}, weniger', zero: 'Alles ab: Null' },
  now: {
    firstZero: 'Nichts liegt auf dem Auto. Lies ab: {corners}.',
    read: 'Lies ab: {corners}.',
    settleTap: 'Klopf auf den Tisch, dann lies ab: {corners}.',
    settleBounce: 'Lass das Auto zweimal durchfedern, dann lies ab: {corners}.',
    moreLoads: 'Leg ein Gewicht auf, lass das Auto zur Ruhe kommen, füg einen Schritt hinzu.',
    wayDown: 'Nimm nun ein Gewicht nach dem anderen ab: Der Rückweg zeigt die Reibung.',
    zeroReturn: 'Nimm alles ab und lies noch einmal den Nullpunkt ab.',
    usefulLoad: 'Genug für eine Kennlinie. Am nützlichsten als Nächstes: {loads}.',
    goodEnough: 'So gut, wie du es wolltest. Weiter zu den Kennlinien.',
    enough: 'Genug für eine Kennlinie. Mehr Wiederholungen machen das Intervall kürzer.',
  },
  pictureShows: 'Absenkung jeder Ecke im laufenden Schritt, gegen den mittleren Nullpunkt.', pictureNumbers: 'Kreise: wie viele Gewichte dort liegen. Klick aufs Auto, um zu sagen, wo die nächsten liegen.',
  onCar: '{step}: {loads}.', soFar: 'Bis hierher', atForce: 'zurückgelesen bei {force}', good: 'so gut, wie du es wolltest', notYet: 'noch nicht so gut, wie du es wolltest', nextLoad: 'Nützlichstes nächstes Gewicht: {load}.', toCurve: 'Zu den Kennlinien',
  benchMode: 'Werkbank-Ansicht', before: 'Zurück', after: 'Weiter', goTo: 'Gehe zu {corner}', dropShort: '{drop} tiefer', nextStep: 'Nächster Schritt', backToCorners: 'Zurück zu den Ecken',
  benchKeys: 'Enter: übernehmen und weiter. Bild auf, Bild ab: zwischen den Ecken. Esc: verlassen.',
}

import type { squat as en } from '../en/squat'
import type { Words } from '../types'

export const squat: Words<typeof en> = {
  caution: 'Stelle das Auto mit ausgebautem Akku auf einen festen Tisch. Lege Gewichte langsam auf, über dem Chassis, nie über Händen oder Füßen. Halte Bleischrot in geschlossenen Beuteln.',
  emptyTitle: 'Drücke das Auto nieder und lies ab, wie weit es geht', empty: 'Lies die vier Ecken unbelastet ab, dann mit jedem Gewicht, hinauf und wieder zurück.', start: 'Einfedern beginnen',
  needGauge: 'Gib dem Auto zuerst ein Höhenmessmittel.', another: 'Noch ein Einfedern', which: 'Einfedern', name: 'Einfedern {count}', nameLabel: 'Name',
  how: 'Wie es gemacht wird', gauge: 'Messmittel', noGauge: 'kein Messmittel', orderLabel: 'Reihenfolge', order: { upDown: 'hinauf, dann zurück', upOnly: 'nur hinauf', random: 'gemischt' },
  settleLabel: 'Vor jeder Ablesung', settle: { none: 'nichts', tap: 'auf den Tisch klopfen', bounce: 'zweimal wippen' },
  friction: 'Angenommene Reibung, {axle}', frictionLabel: 'Angenommene Reibung', frictionHow: 'nur wo kein Entlasten abgelesen wird', wished: 'Gut genug',
  wishedForce: 'Gut genug: bei einer Kraft von', wishedWidth: '… auf ±', wishedShort: 'gut genug: ±{width} bei {force}',
  readings: 'Was das Messmittel zeigt, {unit}', step: 'Schritt', stepNo: 'Schritt {count}', zeroStep: 'Null', touched: 'Setzt auf', touchedAxle: 'Setzt auf, {axle}',
  putAside: 'Beiseitelegen', takeBack: 'Zurückholen', retyped: 'neu getippt', was: 'Neu getippt; vorher: {value}',
  datumAsRuns: 'wie die Läufe in bewegter Luft',
  place: 'Nächster Schritt: was auf dem Auto liegt', load: 'Gewicht', weighFirst: 'Wiege zuerst einige Gewichte.', x: 'x hinter der Vorderachse', y: 'y nach rechts', uPlace: 'u der Lage',
  apart: 'jedes Gewicht an seinem Platz', takeUseful: 'Die nützlichsten Gewichte nehmen',
  add: { loading: 'Schritt mit {mass}, mehr', unloading: 'Schritt mit {mass}, weniger', zero: 'Alles ab: Null' },
  now: {
    firstZero: 'Nichts auf dem Auto: lies {corners} ab.',
    read: 'Lies {corners} ab.',
    settleTap: 'Klopfe auf den Tisch, dann lies {corners} ab.',
    settleBounce: 'Wippe das Auto zweimal, dann lies {corners} ab.',
    moreLoads: 'Lege ein Gewicht auf, lass es zur Ruhe kommen, füge einen Schritt an.',
    wayDown: 'Nimm nun ein Gewicht nach dem anderen ab: der Rückweg zeigt die Reibung.',
    zeroReturn: 'Nimm alles ab und lies noch einmal die Null.',
    usefulLoad: 'Genug für eine Kennlinie. Am nützlichsten als Nächstes: {loads}.',
    goodEnough: 'Gut genug für deinen Wunsch. Weiter zu den Kennlinien.',
    enough: 'Genug für eine Kennlinie. Mehr Wiederholungen machen das Intervall kürzer.',
  },
  pictureShows: 'Absinken jeder Ecke im laufenden Schritt, von der mittleren Null aus.', pictureNumbers: 'Kreise: wie viele Gewichte dort liegen. Ein Klick aufs Auto sagt, wo die nächsten liegen.',
  onCar: '{step}: {loads}.', soFar: 'Bis hierher', atForce: 'zurückgelesen bei {force}', good: 'gut genug für deinen Wunsch', notYet: 'noch nicht so gut wie gewünscht', nextLoad: 'Nützlichstes nächstes Gewicht: {load}.', toCurve: 'Zu den Kennlinien',
  benchMode: 'Werkbank-Ansicht', before: 'Davor', after: 'Weiter', goTo: 'Gehe zu {corner}', dropShort: '{drop} tiefer', nextStep: 'Nächster Schritt', backToCorners: 'Zurück zu den Ecken',
  benchKeys: 'Enter: übernehmen und weiter. Bild auf, Bild ab: zwischen den Ecken. Escape: verlassen.',
}

import type { overview as en } from '../en/overview'
import type { Words } from '../types'

export const overview: Words<typeof en> = {
  next: 'Als Nächstes', done: 'Alles ist da. Druck den Bericht, oder verbessere, was unten steht.', nowWhat: 'Was am meisten hilft',
  mostDoubt: '{advice}: {share} der Unsicherheit {what}.', ofLoad: 'des Abtriebs', ofCurve: 'der Kennlinie {axle}',
  parts: 'Die ganze Arbeit', part: 'Teil', there: 'Vorhanden', wants: 'Fehlt', accuracy: 'So gut ist es jetzt', better: 'Was es am meisten verbessert',
  nothingMissing: 'nichts', notYet: 'noch nichts', asYouLike: 'wenn du magst', ofDoubt: '{advice} ({share} der Unsicherheit)',
  is: {
    car: '{name}: Radstand {wheelbase}', loads: '{count} gewogenes Gewicht | {count} gewogene Gewichte',
    squat: '{tests} Einfedertest, {steps} Schritte, {readings} Höhen | {tests} Einfedertests, {steps} Schritte, {readings} Höhen',
    curve: 'vorn: {front}; hinten: {rear}', noCurve: 'keine', airflow: '{runs} auswertbarer Lauf, {controls} Kontrollläufe | {runs} auswertbare Läufe, {controls} Kontrollläufe',
    load: '{name} drückt am meisten', decide: '{setUps} Setup, {apart} von {pairs} Paaren deutlich verschieden | {setUps} Setups, {apart} von {pairs} Paaren deutlich verschieden',
    track: '{laps} Runde, die zählt | {laps} Runden, die zählen', drag: '{coasts} Ausrollen, das einen Widerstand zeigt | {coasts}-mal ausgerollt',
    report: 'eine Seite zum Weitergeben, dazu der Anhang',
  },
  good: { loads: 'jedes auf {half}', air: 'Luftgeschwindigkeit auf {half}', curve: '{axle}, zurückgelesen', load: 'bei {speed}', gain: 'Gewinn auf der Strecke', drag: 'Luftwiderstand bei {speed}' },
  advice: {
    scaleGain: 'Prüf die Küchenwaage mit einer bekannten Masse', scaleResolution: 'Wieg auf einer Waage mit feineren Schritten',
    load: 'Wieg jedes Gewicht ein paarmal öfter', place: 'Leg die Gewichte genauer auf, und miss, wo sie liegen',
    gaugeScale: 'Prüf das Messgerät mit einer bekannten Länge', gaugeZero: 'Lies die Null öfter ab',
    gaugeReading: 'Nimm ein Messgerät mit feineren Schritten', typed: 'Sieh dir das eingetragene u an', repeatability: 'Wiederhole die Ablesungen',
    friction: 'Mach die Aufhängung leichtgängig, oder federe vor jeder Ablesung durch', modelChoice: 'Ergänze Lasten zwischen den vorhandenen',
    airDensity: 'Lies Temperatur und Druck der Luft ab', anemometer: 'Prüf das Anemometer', airUnevenness: 'Lies mehr Punkte quer zum Strahl ab',
    timing: 'Miss die Zeit über einen längeren Weg', distance: 'Miss den Abstand der Lichtschranken', chassis: 'Miss und wieg das Auto genauer',
    holding: 'Sieh nach, wie das Auto im Strahl gehalten wird', control: 'Wiederhole den Kontrolllauf', picture: 'Setz die Marken im Bild genauer',
    tyre: 'Miss, wie die Reifen nachgeben', track: 'Fahr mehr Runden, im Wechsel', spring: 'Vermiss die Federn',
    coast: 'Lass öfter ausrollen, hin und zurück', power: 'Fahr noch einmal mit Vollgas',
  },
}

import type { sensor as en } from '../en/sensor'
import type { Words } from '../types'

export const sensor: Words<typeof en> = {
  title: 'Einen Beschleunigungssensor kalibrieren', how: 'Leg ihn auf einem waagrechten Tisch auf jede seiner sechs Seiten, halte ihn still, und tippe ein, was seine drei Achsen zeigen. Verstärkung, Übersprechen und Nullpunktabweichung sind so von seiner Lage im Auto zu trennen.',
  add: 'Sensor', name: 'Sensor {count}', called: 'Name', level: 'Seiten waagrecht auf, u', temperature: 'Temperatur dabei', reading: 'Ablesung einer Seite', place: 'Ort des Sensors',
  next: 'Ablesung {count}: {face}', faces: { xUp: 'x oben', xDown: 'x unten', yUp: 'y oben', yDown: 'y unten', zUp: 'z oben', zDown: 'z unten' },
  shows: '{axis} zeigt', keep: 'Ablesung behalten', up: 'Seite', putAside: 'Beiseitelegen: Ablesung {count}', takeBack: 'Zurückholen: Ablesung {count}',
  missing: 'Es fehlen noch: {faces}.', axis: 'Achse', gain: 'Verstärkung, ± 95 %', cross: 'Übersprechen', bias: 'Nullpunktabweichung', use: 'Beim Sensor aufbewahrt: Wähle ihn, wenn du ein Protokoll liest.', misfit: 'Die Ablesungen passen innerhalb von Streuung und Neigung nicht zu zwölf Zahlen: Wiederhole {face}.',
  ahead: 'Sitzt vor dem Schwerpunkt', right: 'Sitzt rechts davon', placeHow: 'Ein Sensor abseits der Mitte zeigt in der einen Kurvenrichtung mehr und in der anderen weniger; angegeben sind Niveaus für den Schwerpunkt.',
}

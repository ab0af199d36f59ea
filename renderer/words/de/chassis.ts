import type { chassis as en } from '../en/chassis'
import type { Words } from '../types'

export const chassis: Words<typeof en> = {
  lengths: 'Längen', name: 'Name', wheelbase: 'Radstand', track: 'Spurweite', trackOf: 'Spurweite, {axle}',
  masses: 'Massen', cornerMasses: 'Radlasten', cornerMassesHow: 'Ein Rad auf der Waage, die anderen drei auf Klötzen von der Höhe der Waage, fahrfertig. Daraus folgt der vordere Anteil im Stand, an dem die Aerobalance gemessen wird.',
  sum: 'Summe der Ecken:', mass: 'Masse des Autos', cgHeight: 'Höhe des Schwerpunkts',
  trayTouch: 'Wie weit es absinken darf', trayTouchHow: 'Absinken jeder Achslinie aus dem unbelasteten Stand, bei dem der Unterboden aufsetzt. Eine Ablesung dort ist nur „mindestens“.',
  stations: 'Wo Höhen abgelesen werden', stationsHow: 'x von der Vorderachslinie nach hinten, y nach rechts. Üblich ist das Ablesen an den Rädern.',
  corner: 'Ecke', axes: 'Runde Marken: wo du abliest. Höhen sind Höhen des Chassis; Absinken zählt nach unten positiv.',
  instruments: 'Messmittel', instrumentName: 'Name', gauge: 'Höhenmessmittel', scale: 'Waage', anemometer: 'Windmesser',
  readsWhat: 'Es zeigt', reads: { height: 'Höhe', drop: 'Absinken' }, steps: 'Ziffernschritt', repeatability: 'Wiederholbarkeit u',
  repeatabilityHow: 'leer: aus Wiederholungen gelernt', zeroU: 'Null u', scaleU: 'Maßstabsfehler u', gainU: 'Maßstabsfehler u',
  checked: 'die Prüfung der Waage gilt', unchecked: 'prüfe sie mit einer bekannten Masse', factor: 'Wahr / gezeigt',
  configurations: 'Aufbauten zum Vergleichen', configurationsHow: 'Schürzen an oder ab, Flügelwinkel, Splitter: je eine Zeile. Dieselben Worte kehren in jedem Vergleich wieder.',
  configuration: 'Aufbau', wingAngle: 'Flügelwinkel', note: 'Notiz',
  springs: 'Federn', springsHow: 'Für einen zweiten Weg zur Radrate, und um zu fragen, welche Feder den Unterboden vom Boden hält. Übersetzung: Federweg durch Radweg.',
  spring: 'Feder', springAxle: 'Achse', fitted: 'eingebaut', rate: 'Rate laut Händler', motionRatio: 'Übersetzung', wire: 'Draht', coil: 'Mittlerer Windungsdurchmesser', coils: 'Federnde Windungen',
  rest: 'Mehr, falls du es brauchst', tyres: 'Reifen', tyresHow: 'Nur für Höhen, die vom Boden aus gemessen sind: senkrechte Rate beider Reifen einer Achse, und Wachsen des Halbmessers mit dem Quadrat der Geschwindigkeit, mm je (m/s)².',
  tyreRate: 'Reifenrate, {axle}', tyreGrowth: 'Reifenwachsen, {axle}', place: 'Ort', placeHow: 'Für die Schwere am Ort. Leer: 9,80665 m/s² nach Norm, und die Ergebnisse sagen das.',
  latitude: 'Breite', height: 'Höhe über dem Meer',
}

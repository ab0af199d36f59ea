import type { chassis as en } from '../en/chassis'
import type { Words } from '../types'

export const chassis: Words<typeof en> = {
  lengths: 'Längen', name: 'Name', wheelbase: 'Radstand', track: 'Spurweite', trackOf: 'Spurweite, {axle}',
  masses: 'Massen', cornerMasses: 'Radlasten', cornerMassesHow: 'Ein Rad auf der Waage, die anderen drei auf Klötzen von der Höhe der Waage, fahrfertig. Daraus folgt der vordere Anteil im Stand, mit dem die Aerobalance verglichen wird.',
  sum: 'Summe der Ecken:', mass: 'Masse des Autos', cgHeight: 'Höhe des Schwerpunkts',
  trayTouch: 'Wie weit es absinken darf', trayTouchHow: 'Absenkung jeder Achslinie, gemessen vom unbelasteten Stand, bei der der Unterboden aufsetzt. Eine Ablesung dort heißt nur „mindestens“.',
  stations: 'Wo Höhen abgelesen werden', stationsHow: 'x von der Vorderachslinie nach hinten, y nach rechts. Üblich ist das Ablesen an den Rädern.',
  corner: 'Ecke', axes: 'Runde Marken: wo du abliest. Höhen sind Höhen des Chassis; eine Absenkung zählt nach unten positiv.',
  notKnown: 'Das weiß ich nicht; nicht mehr fragen',
  guess: { label: 'Bestätigt', says: 'Gestrichelt: Schätzungen, mit denen das neue Auto kam.', right: 'Sie stimmen' },
  doubt: {
    sum: 'Die Ecken ergeben zusammen {sum}, das Auto ist mit {mass} angegeben: {difference} Unterschied, wo ihre Unsicherheiten {allowed} zulassen. Wiege noch einmal, oder berichtige eines davon.',
    beyondCar: '{corner}: {weight} ist mehr als das halbe Auto mit {car}. Stimmt das?',
    beyondOthers: '{corner}: {weight} ist ein Vielfaches der anderen Ecken, die bei etwa {others} liegen. Stimmt das?',
  },
  instruments: 'Messgeräte', instrumentName: 'Name', gauge: 'Messgerät für Höhen', scale: 'Waage', anemometer: 'Windmesser',
  readsWhat: 'Es zeigt', reads: { height: 'Höhe', drop: 'Absenkung' }, steps: 'Ziffernschritt', repeatability: 'Wiederholpräzision u',
  repeatabilityHow: 'leer: aus Wiederholungen', zeroU: 'Nullpunkt u', scaleU: 'Skalenfaktor u', gainU: 'Skalenfaktor u',
  checked: 'die Prüfung der Waage gilt', unchecked: 'prüfe sie mit einer bekannten Masse', factor: 'Wahr / gezeigt',
  configurations: 'Setups zum Vergleichen', configurationsHow: 'Schürzen dran oder ab, Flügelwinkel, Splitter: eine Zeile je Setup. Dieselben Namen stehen später in jedem Vergleich.',
  configuration: 'Setup', wingAngle: 'Flügelwinkel', note: 'Notiz',
  takeOut: 'Herausnehmen: {name}', nameTaken: '„{name}“ gibt es schon: Zwei gleichen Namens lassen sich nicht unterscheiden.',
  setUpInUse: '„{name}“ bleibt: Läufe damit: {count} ({runs}). Gib ihnen erst ein anderes Setup.',
  springInUse: '„{name}“ bleibt: Sie ist als eingebaut angehakt. Nimm erst den Haken weg.',
  springs: 'Federn', springsHow: 'Für einen zweiten Weg zur Radfederrate, und für die Frage, welche Feder den Unterboden vom Boden fernhält. Übersetzung: Federweg durch Radweg.',
  spring: 'Feder', springAxle: 'Achse', fitted: 'eingebaut', rate: 'Federrate laut Händler', motionRatio: 'Übersetzung', wire: 'Draht', coil: 'Mittlerer Windungsdurchmesser', coils: 'Federnde Windungen',
  rest: 'Mehr, falls du es brauchst', tyres: 'Reifen', tyresHow: 'Nur für Höhen, die vom Boden aus gemessen sind: senkrechte Federrate beider Reifen einer Achse zusammen, und Wachstum des Radius mit dem Quadrat der Geschwindigkeit, mm je (m/s)².',
  tyreRate: 'Reifenfederrate, {axle}', tyreGrowth: 'Reifenwachstum, {axle}', place: 'Ort', placeHow: 'Für die örtliche Fallbeschleunigung. Leer: Es gilt der Normwert 9,80665 m/s², und die Ergebnisse sagen das dazu.',
  latitude: 'Geografische Breite', height: 'Höhe über dem Meer',
}

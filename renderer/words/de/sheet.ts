import type { sheet as en } from '../en/sheet'
import type { Words } from '../types'

export const sheet: Words<typeof en> = {
  open: 'Tabelle einlesen …', openHow: 'Eine CSV- oder Textdatei; oder füge Zeilen aus einer Tabellenkalkulation ein, oder zieh eine Datei hierher.',
  taken: 'Übernommen: {rows}, {readings}.', takenRows: '1 Zeile | {count} Zeilen', takenReadings: '1 Ablesung | {count} Ablesungen', corrected: '{count} davon haben berichtigt, was da stand.', undoable: 'Strg Z nimmt alles zurück.',
  noTable: '„{file}“ ist keine Tabelle aus Text: speichere sie als CSV und versuch es noch einmal.',
  title: {
    squat: 'Tabelle eines Einfedertests', air: 'Tabelle von Höhen im Luftstrom', traverse: 'Tabelle von Luftgeschwindigkeiten', laps: 'Tabelle von Runden', loads: 'Tabelle der Gewichte',
  },
  how: 'Sag, was jede Spalte enthält; für Tabellen mit denselben Überschriften wird es gemerkt. Zellen lassen sich hier berichtigen. Übernommen wird erst, wenn du es sagst.',
  fits: 'Jede Zelle ist lesbar.', more: 'und {count} weitere', rowsMore: '{count} weitere Zeilen werden ebenso gelesen.',
  unknown: 'Nicht gelesen, denn niemand hat gesagt, was darin steht: {columns}.', columnNo: 'Spalte {count}', unitOf: 'Einheit der Spalte {count}',
  cell: 'Zeile {row}, Spalte {column}', where: 'Zeile {row}, Spalte {column} ({field})', take: 'Übernehmen', discard: 'Tabelle verwerfen', head: 'Die erste Zeile benennt die Spalten',
  empty: '{count} abgelehnte Zellen leer lassen',
  field: {
    none: 'nicht gelesen', frontLeft: 'vorne links', frontRight: 'vorne rechts', rearLeft: 'hinten links', rearRight: 'hinten rechts', corner: 'Ecke', shown: 'angezeigte Höhe',
    readAt: 'abgelesen am', readingAside: 'Ablesung beiseitegelegt, warum', session: 'Sitzung', step: 'Nummer', branch: 'Richtung', ramp: 'Rampe', load: 'Last auf dem Auto',
    x: 'Ort x', y: 'Ort y', touchedFront: 'berührt, vorne', touchedRear: 'berührt, hinten', stepAside: 'Zeile beiseitegelegt, warum', run: 'Lauf', setUp: 'Setup',
    runKind: 'Art des Laufs', control: 'Kontrolllauf', air: 'Luft an oder aus', stateAt: 'Zeit im Lauf', pointY: 'y quer zum Strahl', pointZ: 'z nach oben', weight: 'Anteil am Strahl',
    speed: 'Luftgeschwindigkeit', order: 'Platz in der Reihenfolge', radius: 'Radius', lap: 'Rundenzeit', level: 'Niveau', levelU: 'Niveau, u', name: 'Gewicht', mass: 'angezeigte Masse', scale: 'Waage', ignored: 'übergangen',
  },
  guess: {
    place: 'Die Tabelle sagt nicht, wo die Lasten lagen. Angenommen ist die Mitte zwischen den Achsen; ergänze eine Spalte mit x oder vorne, Mitte, hinten, wenn sie woanders lagen.',
    air: 'Die Tabelle sagt nicht, wann die Luft an war. Angenommen ist aus und an im Wechsel.',
    columns: 'Niemand hat gesagt, was die Spalten enthalten. Angenommen ist diese Reihenfolge.',
    runsByColumn: 'Jede Spalte gilt als eigener Lauf, benannt nach ihrer Überschrift.',
    newSetUp: 'Die Tabelle nennt Setups, die das Auto noch nicht hat; sie kommen dazu.',
  },
  fault: {
    unknownWord: '„{typed}“ ist hier nicht bekannt: tippe eines von {known}',
    unknownLoad: 'das Auto hat keine Last „{load}“: wieg sie zuerst, oder tippe {known} oder eine Masse',
    noSuchMass: 'keine Lasten des Autos ergeben zusammen {typed}, wohl aber {low} oder {high}: berichtige die Masse, oder wieg zuerst die fehlende Last',
    loadMissing: 'was lag auf dem Auto? Tippe die Lasten oder ihre Masse, oder 0 für nichts',
    noStep: 'für diese Zeile gibt es keinen Schritt: leg ihn zuerst an, oder ergänze eine Spalte mit der Last',
    noPoint: 'das Messnetz hat keinen Punkt für diese Zeile: ergänze die Spalten y und z, oder lege zuerst mehr Punkte an',
    noRun: 'es gibt keinen Lauf „{typed}“: lies zuerst seine Höhen ein, oder berichtige den Namen',
    noCorner: 'welche Ecke? Tippe vorne links, vorne rechts, hinten links oder hinten rechts',
    badName: 'das kann kein Name sein: eine Zeile mit höchstens 200 Zeichen',
    badMoment: '„{typed}“ ist kein Zeitpunkt: tippe ihn wie 2031-05-04T09:30:00.000Z, oder lass ihn weg',
    tooMany: 'mehr als {limit} Zeilen werden nicht auf einmal übernommen: teil die Tabelle',
  },
}

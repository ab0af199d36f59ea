import type { track as en } from '../en/track'
import type { Words } from '../types'

export const track: Words<typeof en> = {
  lapNo: 'Runde {count}', benchLaps: '{count} Runden', benchSlip: 'Eine dieser Runden sieht nach einem Tippfehler aus: Wähl sie an und tippe sie noch einmal.', benchRun: 'Anderer Lauf',
  caution: 'Fahre nur, wo niemand getroffen werden kann, hinter einer Absperrung und mit jemandem, der aufpasst; halte Kinder und Tiere fern. Finger weg von drehenden Rädern. Lade und lagere LiPo-Akkus nach Angabe ihres Herstellers. Halte dich an die Regeln des Ortes.',
  name: 'Gegenprobe {count}', which: 'Gegenprobe', another: 'Neue Gegenprobe', runs: 'Läufe in der gefahrenen Reihenfolge', runLabel: 'Lauf', runName: 'Kreis {count}', addTyped: 'Niveaus von einer Anzeige', typedName: 'Niveaus {count}',
  levelsShown: 'Angezeigt', levelsOf: 'Niveaus von {name}', levelOf: '{name}, Niveau {count}', putAsideLevel: 'Beiseitelegen: {name}, Niveau {count}', takeBackLevel: 'Zurückholen: {name}, Niveau {count}',
  uShown: 'u eines Niveaus', uShownHow: 'Letzte Ziffer, und wie gemittelt wird.', tyreTemperature: 'Reifentemperatur',
  addRun: 'Kreisfahrt',
  emptyTitle: 'Gibt die Strecke dem Prüfstand recht?', empty: 'Fahre einen Kreis mit bekanntem Radius: vorher, nachher, wieder vorher. Tippe die Rundenzeiten ein.',
  radius: 'Bahnradius', uTime: 'u der Zeit', surface: 'Belag', lap: 'Runde', lapOf: '{name}, Runde {count}', putAside: 'Beiseitelegen: {name}, Runde {count}', takeBack: 'Zurückholen: {name}, Runde {count}',
  more: 'Belag, Ballast, Reifen', moreCircle: 'Radius, Zeitnahme, Belag, Ballast, Reifen', mean: 'Mittel, 95 %', ballast: 'Ballast', tyreNote: 'Reifen', lapsS: 'Runden, s', lapsOf: 'Runden von {name}',
  sensitivity: 'Wie der Grip mit der Last fällt, Exponent', sensitivityHow: 'Grip durch Last fällt mit dieser Potenz der Last. Leer: Es gilt ein üblicher Bereich, und das steht dann dabei.',
  manoeuvre: { circle: 'Kreis', slalom: 'Slalom', launch: 'Anfahren', braking: 'Bremsen', other: 'Anderes' },
  after: '{after} nach {before}', gain: 'Gewinn in der Kurve', difference: 'Unterschied', expected: 'Vom Prüfstand erwartet', needs: 'Um das bei {speed} zu gewinnen, brauchen die Reifen diese Last von der Luft; daneben, was der Prüfstand dazu sagt.', neededLoad: 'Nötige Last', benchLoad: 'Last nach dem Prüfstand',
  paired: 'Gewinn aus {count} Nachbarpaaren', pairedP: 'p {p} für keinen Unterschied, allein für diese Paare.', pairedUnlike: '{one} Paare begannen ohne und {other} mit: Eine Drift bleibt in ihrem Unterschied.',
  covariates: 'Gewinn ohne Reihenfolge und Reifentemperatur', perKelvin: 'Niveau je Kelvin der Reifen', together: '{one} und {other} haben sich gemeinsam verändert: Diese Läufe können sie nicht unterscheiden.',
  moved: { device: 'Das Setup', order: 'die Reihenfolge', tyreTemperature: 'die Reifentemperatur' }, noBench: 'Von einem der beiden weiß der Prüfstand noch nichts.', oneOnly: 'Nur ein Setup: Fahre noch eins zum Vergleich.',
  verdict: { agrees: 'Prüfstand und Strecke stimmen überein.', compatible: 'Die Strecke liegt auf der richtigen Seite der Grenze, die der Prüfstand nennt.', trackLower: 'Die Strecke zeigt weniger, als der Prüfstand erwarten ließ.', trackHigher: 'Die Strecke zeigt mehr, als der Prüfstand erwarten ließ.', untold: 'Ob sie übereinstimmen, ist nicht feststellbar.' },
  repeats: 'Runden nach Reihenfolge', orderAxis: 'Reihenfolge', level: 'Niveau', used: 'Verwendet', yes: 'ja', no: 'nein',
}

import type { track as en } from '../en/track'
import type { Words } from '../types'

export const track: Words<typeof en> = {
  caution: 'Fahre nur, wo niemand getroffen werden kann, hinter einer Absperrung, mit jemandem, der schaut; halte Kinder und Tiere fern. Finger weg von drehenden Rädern. Lade und lagere LiPo-Akkus, wie ihr Hersteller es sagt. Halte dich an die Regeln des Ortes.',
  name: 'Streckenprobe {count}', which: 'Streckenprobe', runs: 'Läufe in der gefahrenen Reihenfolge', runLabel: 'Lauf', runName: 'Kreis {count}', addRun: 'Kreislauf',
  emptyTitle: 'Stimmt die Strecke zu?', empty: 'Fahre einen Kreis von bekanntem Halbmesser, vorher, nachher, wieder vorher. Tippe die Rundenzeiten.',
  radius: 'Halbmesser der Bahn', uTime: 'u der Zeit', surface: 'Belag', lap: 'Runde', lapOf: '{name}, Runde {count}', putAside: 'Beiseitelegen: {name}, Runde {count}', takeBack: 'Zurückholen: {name}, Runde {count}',
  moreCircle: 'Halbmesser, Zeiten, Belag, Ballast, Reifen', mean: 'Mittel, 95 %',
  more: 'Belag, Ballast, Reifen', ballast: 'Ballast', tyreNote: 'Reifen', lapsS: 'Runden, s', lapsOf: 'Runden von {name}',
  sensitivity: 'Wie der Griff mit der Last fällt, Exponent', sensitivityHow: 'Griff durch Last fällt mit dieser Potenz der Last. Leer: ein üblicher Bereich wird angenommen, und das wird gesagt.',
  manoeuvre: { circle: 'Kreis', slalom: 'Slalom', launch: 'Anfahren', braking: 'Bremsen', other: 'Anderes' },
  after: '{after} nach {before}', gain: 'Gewinn in der Kurve', difference: 'Unterschied', expected: 'Die Bank lässt erwarten', noBench: 'Die Bank weiß von einem der beiden noch nichts.', oneOnly: 'Nur ein Aufbau: fahre noch einen zum Vergleich.',
  verdict: { agrees: 'Bank und Strecke stimmen überein.', compatible: 'Die Strecke liegt auf der richtigen Seite der Schranke der Bank.', trackLower: 'Die Strecke zeigt weniger, als die Bank erwarten ließ.', trackHigher: 'Die Strecke zeigt mehr, als die Bank erwarten ließ.', untold: 'Ob sie übereinstimmen, ist nicht feststellbar.' },
  repeats: 'Runden nach Reihenfolge', orderAxis: 'Reihenfolge', level: 'Niveau', used: 'Genutzt', yes: 'ja', no: 'nein',
}

import type { help as en } from '../en/help'
import type { Words } from '../types'

export const help: Words<typeof en> = {
  stepsTitle: 'Jeder Schritt, wie und warum', termsTitle: 'Worte in einfachen Worten', keysTitle: 'Tasten', how: 'Wie', why: 'Warum', back: 'Zurück zu {name}', jump: 'Auf dieser Seite',
  steps: {
    chassis: {
      how: 'Tippe Radstand, Spurweiten und Radlasten. Sage, wo du Höhen abliest und wie weit jedes Ende absinken darf, bis der Unterboden aufsetzt. Trage Messmittel, Waage und Windmesser mit ihren Fehlern ein.',
      why: 'Radstand und Ablesestellen machen aus vier Höhen zwei Achslinien. Jenseits des Aufsetzens ist eine Ablesung keine Zahl mehr, sondern ein „mindestens“.',
    },
    loads: {
      how: 'Wiege jedes Gewicht auf derselben Waage, möglichst zweimal. Prüfe die Waage mit einer Masse, die du besser kennst als sie.',
      why: 'Der Maßstab der Waage steckt in allen Gewichten: Wiederholen mittelt ihn nicht heraus, eine Prüfung nimmt ihn heraus.',
    },
    squat: {
      how: 'Null, Gewichte hinauf, Gewichte zurück, wieder Null. Lass das Auto jedes Mal gleich zur Ruhe kommen. Hake ein Ende an, wenn du seinen Unterboden aufliegen siehst.',
      why: 'Der Abstand zwischen Hinweg und Rückweg ist die Reibung der Federung. Eine gewanderte Null verrät ein Messmittel oder ein Auto, das gewandert ist.',
    },
    curve: {
      how: 'Sieh nach, ob die Punkte der Linie folgen und was unter „Was zu wissen ist“ steht. Probiere ein Absinken: welche Kraft bedeutet es, und welcher Teil des Zweifels ist der größte?',
      why: 'Eine Gerade ist ein Bewerber unter sechs. Die Ablesungen entscheiden; wo sie es nicht können, geht der Zweifel ins Ergebnis.',
    },
    airflow: {
      how: 'Lies die Ecken ohne, mit und wieder ohne Luft ab. Miss die Geschwindigkeit an mehreren Punkten quer über das Bauteil, ohne das Auto. Blase einmal ohne das Bauteil.',
      why: 'Die beiden Ablesungen ohne Luft nehmen die Drift heraus. Der Lauf ohne Bauteil nimmt heraus, was der Strahl an der Karosserie tut. Die Luft ist ungleichmäßig, und die Last geht mit V²: darum zählt das Mittel von V².',
    },
    camera: {
      how: 'Telefon auf dem Stativ, rechtwinklig zum Auto, Aufkleber an Nabe und Chassis, eine bekannte Länge neben dem Rad. Markiere, oder lass die Marken durch einen Film verfolgen.',
      why: 'Eine bekannte Länge in der Ebene der Aufkleber macht aus Pixeln Millimeter. Nabe zu Chassis lässt den Reifen heraus.',
    },
    load: {
      how: 'Wähle einen Lauf. Öffne „Woher kommt das?“, um zu sehen, was zuerst zu verbessern ist.',
      why: 'Das Einfedern in bewegter Luft wird durch die Kennlinie als Kraft auf jede Achse zurückgelesen, mit allem, was man nicht genau weiß.',
    },
    decide: {
      how: 'Vergleiche zwei Aufbauten, frage, was sie bei deiner Geschwindigkeit tun, wann der Unterboden aufsetzt und welche Feder ihn oben hielte.',
      why: 'Zwei Zahlen unterscheiden sich immer; ob die Aufbauten es tun, ist eine andere Frage. Fehler, die beide teilen, heben sich im Unterschied auf.',
    },
    track: {
      how: 'Fahre einen Kreis von bekanntem Halbmesser vorher, nachher, wieder vorher, oder öffne ein Beschleunigungsprotokoll. Tippe jede Runde.',
      why: 'Der Griff sagt, ob die Bank recht hatte. Wenn nicht, sieht man zuerst auf Reihenfolge, Reifen und Luft.',
    },
    report: {
      how: 'Drucke ihn, oder nimm Tabellen und Austauschdatei mit.',
      why: 'Zwei Seiten sagen, was gefunden wurde; der Anhang lässt es andere nachprüfen.',
    },
  },
  terms: {
    measurand: { term: 'Messgröße', says: 'was du wissen willst, etwa die Kraft der Luft auf die Vorderachse' },
    standardUncertainty: { term: 'Standardunsicherheit u', says: 'wie weit ein Schätzwert gut danebenliegen kann, als Standardabweichung' },
    interval: { term: 'Überdeckungsintervall', says: 'ein Bereich, der den wahren Wert mit angegebener Wahrscheinlichkeit enthält, hier 95 %' },
    repeatability: { term: 'Wiederholbarkeit', says: 'wie sehr sich Ablesungen derselben Sache unterscheiden, wenn sich sonst nichts ändert' },
    resolution: { term: 'Ziffernschritt', says: 'die kleinste Änderung, die ein Messmittel zeigt' },
    gain: { term: 'Maßstab', says: 'um welchen Faktor ein Messmittel zu viel oder zu wenig zeigt' },
    budget: { term: 'Budget', says: 'die Liste, woraus eine Unsicherheit besteht, damit du weißt, was zu verbessern ist' },
    shared: { term: 'gemeinsamer Fehler', says: 'ein Fehler, der in jeder Ablesung gleich ist; Wiederholen macht ihn nicht kleiner' },
    atLeast: { term: 'mindestens', says: 'eine untere Schranke: der Unterboden lag auf, die wahre Kraft liegt mit 95 % Wahrscheinlichkeit darüber' },
    dof: { term: 'Freiheitsgrade', says: 'wie gut eine Unsicherheit selbst bekannt ist; wenige machen Intervalle breiter' },
    wheelRate: { term: 'Radrate', says: 'Kraft am Rad je Millimeter Absinken' },
    heave: { term: 'Heben, Nicken, Wanken', says: 'alle vier Ecken gleich; Nase nach unten; eine Seite nach unten' },
    clA: { term: 'ClA', says: 'Auftriebsbeiwert mal Fläche: die Kraft durch den Staudruck; hier drückt positiv nach unten' },
    dynamicPressure: { term: 'Staudruck', says: 'halbe Luftdichte mal Geschwindigkeit im Quadrat' },
    balance: { term: 'vorderer Anteil', says: 'der Teil des Abtriebs, der auf die Vorderachse drückt' },
  },
  keys: {
    enter: { term: 'Enter', says: 'die Zahl übernehmen und zum nächsten Feld; mit Umschalt zum vorigen' },
    vertical: { term: '↑ ↓', says: 'dasselbe Feld eine Zeile höher oder tiefer' },
    horizontal: { term: '← →', says: 'vom Ende eines Feldes zum Nachbarn; im Bild durch die Punkte' },
    escape: { term: 'Esc', says: 'das Feld auf das Behaltene zurück; schließen, was davor steht' },
    undo: { term: 'Strg Z', says: 'die letzte Änderung zurücknehmen' },
    redo: { term: 'Strg Y', says: 'sie wiederholen' },
    pages: { term: 'Bild auf, Bild ab', says: 'in der Werkbank-Ansicht die Ecke davor oder danach' },
    space: { term: 'Leertaste', says: 'die Taste in der Hand drücken: ein Gewicht wählen, ein Kästchen anhaken' },
  },
}

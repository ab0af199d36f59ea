import type { help as en } from '../en/help'
import type { Words } from '../types'

export const help: Words<typeof en> = {
  stepsTitle: 'Jeder Schritt, wie und warum', termsTitle: 'Fachwörter, einfach gesagt', keysTitle: 'Tasten', how: 'Wie', why: 'Warum', back: 'Zurück zu {name}', jump: 'Auf dieser Seite',
  steps: {
    chassis: {
      how: 'Trag Radstand, Spurweiten und Radlasten ein. Sag, wo du Höhen abliest und wie weit jedes Ende absinken darf, bis der Unterboden aufsetzt. Führe Messgerät, Waage und Windmesser mit ihren Abweichungen auf.',
      why: 'Radstand und Messstellen machen aus vier Höhen zwei Achslinien. Setzt der Unterboden auf, ist eine Ablesung keine Zahl mehr, sondern nur noch ein „mindestens“.',
    },
    loads: {
      how: 'Wiege jedes Gewicht auf derselben Waage, am besten zweimal. Prüfe die Waage mit einer Masse, die du besser kennst als sie.',
      why: 'Der Skalenfaktor der Waage steckt in allen Gewichten: Wiederholen mittelt ihn nicht heraus, eine Prüfung rechnet ihn heraus.',
    },
    squat: {
      how: 'Nullpunkt, Gewichte hinauf, Gewichte zurück, wieder Nullpunkt. Lass das Auto jedes Mal auf die gleiche Art zur Ruhe kommen. Hak ein Ende an, wenn dort der Unterboden aufliegt.',
      why: 'Der Abstand zwischen Hinweg und Rückweg ist die Reibung der Federung. Ein gewanderter Nullpunkt verrät, dass sich Messgerät oder Auto verschoben hat.',
    },
    curve: {
      how: 'Sieh nach, ob die Punkte der Linie folgen und was unter „Gut zu wissen“ steht. Probier eine Absenkung aus: Welche Kraft bedeutet sie, und welcher Beitrag zur Unsicherheit ist der größte?',
      why: 'Die Gerade ist nur eine von sechs Formen. Die Ablesungen entscheiden; wo sie es nicht können, geht der Zweifel ins Ergebnis ein.',
    },
    airflow: {
      how: 'Lies die Ecken ohne, mit und wieder ohne Luft ab. Miss die Geschwindigkeit an mehreren Punkten über die Breite des Bauteils, ohne das Auto. Blase einmal ohne das Bauteil.',
      why: 'Die beiden Ablesungen ohne Luft nehmen die Drift heraus. Der Lauf ohne Bauteil nimmt heraus, was der Strahl an der Karosserie tut. Die Luft ist ungleichmäßig, und die Last wächst mit V²: Darum zählt das Mittel von V².',
    },
    camera: {
      how: 'Telefon auf dem Stativ, rechtwinklig zum Auto, Aufkleber an Nabe und Chassis, eine bekannte Länge neben dem Rad. Markiere selbst, oder lass die Marken durch einen Film verfolgen.',
      why: 'Eine bekannte Länge in der Ebene der Aufkleber macht aus Pixeln Millimeter. Nabe zu Chassis lässt den Reifen außen vor.',
    },
    load: {
      how: 'Wähl einen Lauf. Öffne „Woher kommt das?“, um zu sehen, was zuerst zu verbessern ist.',
      why: 'Die Kennlinie macht aus der Einfederung im Luftstrom eine Kraft an jeder Achse, samt allem, was man nicht genau weiß.',
    },
    decide: {
      how: 'Vergleich zwei Setups, frag, was sie bei deiner Geschwindigkeit tun, wann der Unterboden aufsetzt und welche Feder ihn oben halten würde.',
      why: 'Zwei Zahlen unterscheiden sich immer; ob die Setups es tun, ist eine andere Frage. Abweichungen, die beide gemeinsam haben, heben sich im Unterschied auf.',
    },
    track: {
      how: 'Fahre einen Kreis mit bekanntem Radius vorher, nachher, wieder vorher, oder öffne ein Beschleunigungsprotokoll. Trag jede Runde ein.',
      why: 'Der Grip zeigt, ob der Prüfstand recht hatte. Wenn nicht, sieh zuerst nach Reihenfolge, Reifen und Luft.',
    },
    drag: {
      how: 'Lass das Auto auf einer Geraden ausrollen, hin und zurück, an drei oder mehr Messlinien vorbei; oder nimm das Ausrollen aus einer Aufzeichnung. Beschreibe deinen Kurs mit Geraden und Kurven.',
      why: 'Abtrieb wird mit Widerstand bezahlt. Erst auf einem Kurs werden ein Gewinn in den Kurven und ein Verlust auf der Geraden zu einer Zahl; beide Richtungen nehmen Wind und Steigung heraus.',
    },
    report: {
      how: 'Druck ihn aus, oder nimm Tabellen und Austauschdatei mit.',
      why: 'Zwei Seiten sagen, was herauskam; mit dem Anhang können andere es nachprüfen.',
    },
  },
  terms: {
    measurand: { term: 'Messgröße', says: 'was du wissen willst, etwa die Kraft der Luft auf die Vorderachse' },
    standardUncertainty: { term: 'Standardmessunsicherheit u', says: 'wie weit ein Schätzwert gut danebenliegen kann, als Standardabweichung' },
    interval: { term: 'Überdeckungsintervall', says: 'ein Bereich, der den wahren Wert mit der angegebenen Wahrscheinlichkeit enthält, hier 95 %' },
    repeatability: { term: 'Wiederholpräzision', says: 'wie eng Ablesungen derselben Sache beieinanderliegen, wenn sich sonst nichts ändert' },
    resolution: { term: 'Ziffernschritt', says: 'die kleinste Änderung, die ein Messgerät anzeigt' },
    gain: { term: 'Skalenfaktor', says: 'um welchen Faktor ein Messgerät zu viel oder zu wenig zeigt' },
    budget: { term: 'Unsicherheitsbudget', says: 'die Liste, woraus eine Messunsicherheit besteht, damit du weißt, was zu verbessern ist' },
    shared: { term: 'gemeinsame Abweichung', says: 'eine Messabweichung, die in jeder Ablesung gleich ist; Wiederholen macht sie nicht kleiner' },
    atLeast: { term: 'mindestens', says: 'eine untere Grenze: Der Unterboden lag auf, die wahre Kraft liegt mit 95 % Wahrscheinlichkeit darüber' },
    dof: { term: 'Freiheitsgrade', says: 'wie gut eine Unsicherheit selbst bekannt ist; wenige machen Intervalle breiter' },
    wheelRate: { term: 'Radfederrate', says: 'Kraft am Rad je Millimeter Absenkung' },
    heave: { term: 'Hub, Nicken, Wanken', says: 'alle vier Ecken gleich tief; Nase tiefer; eine Seite tiefer' },
    clA: { term: 'ClA', says: 'Auftriebsbeiwert mal Fläche: die Kraft durch den Staudruck; hier heißt positiv nach unten' },
    dynamicPressure: { term: 'Staudruck', says: 'halbe Luftdichte mal Geschwindigkeit im Quadrat' },
    balance: { term: 'vorderer Anteil', says: 'der Teil des Abtriebs, der auf die Vorderachse drückt' },
  },
  licencesTitle: 'Wessen Arbeit mitkommt',
  licences: 'Squatbench ist in Sofia Sans und Sofia Sans Semi Condensed der Sofia Sans Project Authors gesetzt, mit einigen Zeichen aus Noto Sans Math von Google LLC, alle unter der SIL Open Font License 1.1. Auch die Programmbibliotheken stehen unter offenen Lizenzen.',
  licencesAll: 'Alle Lizenzen im Wortlaut',
  licencesMissing: 'Die Lizenzen waren nicht zu lesen; sie stehen in licences.txt neben dem Programm.',
  press: { mod: 'Strg', shift: 'Umschalt', Enter: 'Enter', Escape: 'Esc', PageUp: 'Bild auf', PageDown: 'Bild ab', Space: 'Leertaste' },
  keys: {
    enter: 'die Zahl übernehmen und zum nächsten Feld; mit Umschalt zum vorigen',
    vertical: 'dasselbe Feld eine Zeile höher oder tiefer',
    horizontal: 'vom Ende eines Feldes zum Nachbarn',
    walk: 'im Diagramm durch die Punkte',
    escape: 'das Feld auf den letzten gültigen Wert zurück; schließen, was davor steht',
    undo: 'die letzte Änderung rückgängig machen',
    redo: 'sie wiederholen',
    digits: 'im Einfedertest, bei den Gewichten: das Gewicht mit dieser Ziffer auflegen oder abnehmen',
    addStep: 'im Einfedertest: den nächsten Schritt hinzufügen, wo immer du gerade bist',
    pageBack: 'in der Werkbank-Ansicht: eine Stelle zurück',
    pageOn: 'in der Werkbank-Ansicht: eine Stelle weiter',
    mark: 'auf einem Bild: die Marke setzen, dann zur nächsten',
    snap: 'auf einem Bild: die Marke in die Mitte des Aufklebers setzen',
    nudge: 'auf einem Bild: die Marke um 0,1 px schieben, mit Umschalt um 1 px, mit Strg um 20 px',
    space: 'drücken, worauf du gerade stehst: ein Gewicht wählen, ein Kästchen anhaken',
  },
}

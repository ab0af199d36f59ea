import type { live as english } from '../en/live'
import type { Words } from '../types'

export const live: Words<typeof english> = {
  title: 'Live am Prüfstand', intro: 'Eine Webcam, oder das Telefon als solche, auf einem Stativ und rechtwinklig zum Auto: sie liest die Höhen selbst. Die Einzelbilder bleiben auf diesem Rechner und werden wieder verworfen; Zahlen und ein kleines Bild bleiben, ein Film nur, wenn du ihn unten verlangst.',
  caution: 'Sieh auf das Auto, nicht auf den Bildschirm, während Luft oder Auto sich bewegt. Augen- und Gehörschutz beim Gebläse, niemand im Strahl, Kabel und Stativ festgeklebt. Schrot kann Blei sein: geschlossene Beutel, Hände waschen. Halte dich an die Regeln des Ortes.',
  what: 'Was gelesen wird', mode: { squat: 'Einfedertest', air: 'Gebläselauf' },
  camera: 'Kamera', startCamera: 'Kamera einschalten', stopCamera: 'Ausschalten', lit: 'Die Kamera ist an. Ihre Einzelbilder bleiben auf diesem Rechner.', off: 'Die Kamera ist aus.',
  cameraTrouble: {
    refused: 'Die Kamera wurde nicht erlaubt. Erlaube sie für diese Seite in der Adresszeile des Browsers oder in den Einstellungen des Systems, und schalte sie wieder ein.',
    none: 'Es wurde keine Kamera gefunden. Stecke eine an, oder lass das Telefon als Webcam dienen, und schalte sie wieder ein.',
    inUse: 'Die Kamera ließ sich nicht öffnen: vielleicht hält sie ein anderes Programm. Schließe es, und schalte sie wieder ein.',
    unable: 'Dieser Browser gibt keine Einzelbilder der Kamera heraus. Nimm das Desktop-Fenster oder einen Browser auf Chromium-Basis.',
    gone: 'Die Kamera ist weg. Stecke sie wieder an, und schalte sie ein.',
  },
  setUp: 'Aufbaubild', takeSetUp: 'Aufbaubild aufnehmen', takeAgain: 'Noch einmal aufnehmen', setUpHow: 'Auto in Ruhe, nichts darauf. Markiere es dann einmal: Maßstab, Bodenlinie, Nabe und Chassis beider Räder.',
  setUpName: 'Aufbau {count}', marksMoved: 'Die Aufkleber lagen nicht mehr, wo sie waren: markiere sie neu.', marksKept: 'Die Marken des letzten Aufbaubilds wurden in diesem wiedergefunden.',
  wanted: 'Noch zu markieren oder anzugeben: {what}', newSquat: '+ Einfedertest', newRun: '+ Gebläselauf', keepIn: 'Aufbewahrt in', run: 'Lauf',
  begin: 'Beginnen', end: 'Beenden', heaps: 'Verschiedene Gewichte', farU: 'Die andere Seite bewegt sich gleich, bis auf u', rate: '{count} Einzelbilder je Sekunde',
  step: 'Schritt {number} von {count}', allDone: 'Alle Schritte sind gelesen. Weiter unter Kennlinien.',
  next: { zero: 'Nimm alle Gewichte ab', on: 'Lege auf: {names}', off: 'Nimm ab: {names}', bounceTwice: 'zweimal einfedern', tap: 'antippen', handsOff: 'dann Hände weg', first: 'Nichts auf dem Auto, Hände weg' },
  phase: { waiting: 'Wartet auf dich', moving: 'In Bewegung', settling: 'Steht still, liest…', unmoved: 'Nichts hat sich bewegt, wie es sollte: mach den Schritt, oder nimm ihn, wie er ist (T)', stopped: 'Angehalten' },
  airPhase: { first: 'Lass die Luft aus: die Ruhelage wird gelesen', held: 'Liest', moving: 'In Bewegung', stopped: 'Angehalten' }, air: { off: 'Luft aus', on: 'Luft an' },
  kept: 'Schritt {number} gelesen', keptAir: { off: 'Luft aus gelesen', on: 'Luft an gelesen' }, keptSoFar: 'Bisher gelesen: {list}', readAgain: 'von der Kamera neu gelesen',
  take: 'Jetzt nehmen (T)', undo: 'Letztes zurücknehmen (Strg Z)', aside: 'Letztes beiseitelegen (P)', asideNamed: 'Beiseitegelegt: Schritt {number}', typeOver: 'Überschreiben unter Einfedertest', touched: 'Wanne unten: {axle}', lookAgain: 'Das Licht ist jetzt richtig (L)',
  trouble: {
    markLost: 'Verloren: {marks}. Gib die Sicht frei; bis dahin wird nichts gelesen.', tripodMoved: 'Die Kamera hat sich um {px} px bewegt. Stelle sie zurück, oder nimm das Aufbaubild neu auf; bis dahin wird nichts gelesen.',
    lightChanged: 'Das Licht hat sich um {percent} % geändert. Stelle es wieder her, oder sage, dass es jetzt richtig ist.', framesDropped: 'Es fehlen Einzelbilder: {now} je Sekunde statt {wanted}. Schließe andere Programme oder gib mehr Licht; solange wird nichts gelesen.',
  },
  followTrouble: { refused: 'Lässt sich nicht verfolgen: {marks}. Setze die Marke auf einen Aufkleber, weg vom Rand.', otherSize: 'Die Kamera zeigt {width} × {height} px, das Aufbaubild hat eine andere Größe: nimm es neu auf.', broke: 'Die Verfolgung brach ab: {why}. Beginne noch einmal.' },
  height: 'Höhe jetzt', drop: 'Einfederung', load: 'Last, {axle}', noCurve: 'Noch keine Kennlinie: mache erst den Einfedertest, dann steht hier die Last.', carLabel: 'Das Auto, wie es steht: vorn {front}, hinten {rear} tiefer als in Ruhe',
  goTo: 'Live am Prüfstand', readIt: 'Eine Kamera lesen lassen', filmWish: 'Auch einen Film behalten: eine Datei zum Speichern, wenn der Prüfstand endet', toCurves: 'Kennlinien', toLoad: 'Abtrieb',
}

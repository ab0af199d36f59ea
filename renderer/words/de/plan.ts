import type { plan as en } from '../en/plan'
import type { Words } from '../types'

export const plan: Words<typeof en> = {
  title: 'Den nächsten Vergleich planen', how: 'Blöcke aus A B B A und B A A B, ausgelost: Eine stetige Drift von Reifen, Belag oder Akku hebt sich in jedem Block auf.',
  before: 'Ohne', after: 'Mit', wished: 'Gesuchter Gewinn', draw: 'Reihenfolge auslosen',
  needed: '{runs} Läufe in {blocks} Blöcken: Ein Gewinn dieser Größe wird mit einer Wahrscheinlichkeit von {power} gefunden.', nearlySure: 'über 99 %', outOfReach: 'Es wären mehr als 48 Läufe nötig: Mach die Läufe gleichmäßiger, oder suche einen größeren Gewinn.',
  own: 'Nach deiner eigenen Streuung von Lauf zu Lauf, {scatter}.', usual: 'Gerechnet mit einer üblichen Streuung von Lauf zu Lauf, {scatter}: Fahre einige Paare, dann gilt deine.',
  detectable: 'In 8 von 10 Fällen gefunden, nach Zahl der Läufe: {list}.', order: 'Fahre in dieser Reihenfolge:', driven: 'gefahren: {run}', begun: 'begonnen: {run}, seine Runden fehlen noch', strayed: 'stattdessen mit {name} gefahren: {run}', next: 'als Nächstes',
  lead: '{driven} von {of} gefahren. Nach Plan kommt jetzt: {name}. Bau es an, lass die Reifen dahin zurückkommen, wo der letzte Lauf begann, und fahre dann.', begin: 'Diese Kreisfahrt beginnen', done: 'Die ganze Reihenfolge ist gefahren: Was sie sagt, steht bei den Läufen, nach Paaren von Nachbarn.', doneStrayed: 'Alle Plätze sind besetzt, {count} davon mit einem anderen Setup als geplant: Die Drift hebt sich womöglich nicht mehr auf.',
  note: 'Schreib bei jedem Start die Reifentemperatur auf: Dann lässt sie sich vom Setup unterscheiden.',
}

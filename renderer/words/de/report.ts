import type { report as en } from '../en/report'
import type { Words } from '../types'

export const report: Words<typeof en> = {
  emptyTitle: 'Noch nichts zu drucken', empty: 'Hier kommen Ablesungen und Ergebnisse dieses Autos aufs Papier.', wholeCar: 'Das ganze Auto', about: 'Über', against: 'gegen',
  print: 'Drucken…', tables: 'Tabellen (CSV)', tablesIn: 'Die Tabellen liegen in {folder}.', exchange: 'Austauschdatei', preview: 'Der Bericht, wie er gedruckt wird',
  how: 'Auf der Seite steht die Antwort bei der Geschwindigkeit, nach der du gefragt hast; der Anhang ist ein eigenes Dokument: Methode, Ablesungen, Anpassungen, Unsicherheitsbudget, Grenzen und Vorsicht. Einheiten wie von dir gewählt.',
  which: 'Papier', part: { page: 'die Seite', annex: 'Anhang' },
}

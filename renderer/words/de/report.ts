import type { report as en } from '../en/report'
import type { Words } from '../types'

export const report: Words<typeof en> = {
  emptyTitle: 'Noch nichts zu drucken', empty: 'Hier kommen Ablesungen und Ergebnisse dieses Autos aufs Papier.', wholeCar: 'Das ganze Auto', about: 'Über', against: 'gegen',
  print: 'Drucken…', tables: 'Tabellen (CSV)', tablesIn: 'Die Tabellen liegen in {folder}.', exchange: 'Austauschdatei', preview: 'Der Bericht, wie er gedruckt wird',
  how: 'Zwei Seiten in Kürze, der Rest als Anhang: Verfahren, Ablesungen, Kennlinien, Unsicherheitsbudget, Grenzen, Warnungen. Sprache und Einheiten, wie du sie gewählt hast.',
}

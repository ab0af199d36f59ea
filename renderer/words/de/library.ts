import type { library as en } from '../en/library'
import type { Words } from '../types'

export const library: Words<typeof en> = {
  title: 'Autos',
  lead: 'Lege bekannte Gewichte auf, lies ab, wie weit das Auto einfedert, und lies dann das Einfedern in bewegter Luft als Abtrieb auf jeder Achse, mit ehrlicher Unsicherheit.',
  begin: 'Noch ein Auto',
  beginOwn: 'Oder beginne mit deinem eigenen',
  newName: 'Name eines neuen Autos',
  nameNeeded: 'Gib dem Auto zuerst einen Namen.',
  create: 'Neues Auto',
  openFile: 'Austauschdatei öffnen…',
  demo: 'Demo-Auto öffnen',
  emptyTitle: 'Hier steht noch kein Auto',
  empty: 'Die Demo ist ein erfundenes Auto mit allen Ablesungen: sieh sie dir zuerst an, ändere, was du willst.',
  cars: 'Deine Autos',
  find: 'Auto oder Sitzung suchen',
  found: 'keins gefunden | eins gezeigt | {count} gezeigt',
  more: '{count} weitere: tippe einen Teil des Namens.',
  sessions: 'noch keine Sitzung | eine Sitzung | {count} Sitzungen',
  export: 'Ausgeben',
  remove: 'Entfernen',
  removeTitle: '{name} entfernen?',
  removeText: 'Seine Dateien kommen in den Ordner der entfernten Sachen. Nichts wird gelöscht.',
  unreadable: 'Dateien, die sich nicht lesen ließen; sie blieben, wie sie sind',
}

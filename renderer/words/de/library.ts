import type { library as en } from '../en/library'
import type { Words } from '../types'

export const library: Words<typeof en> = {
  twinTitle: '„{name}“ ist schon in deiner Bibliothek', twinText: 'Die Datei enthält ein Auto, das schon übernommen wurde. Öffne es, wie es in der Bibliothek steht, oder nimm die Datei noch einmal als zweites Auto daneben auf.', twinOpen: 'Auto öffnen', twinTake: 'Als zweites Auto aufnehmen',
  title: 'Autos',
  lead: 'Leg bekannte Gewichte auf, lies ab, wie weit das Auto einfedert, und lies dann die Einfederung im Luftstrom als Abtrieb an jeder Achse ab, mit ehrlicher Unsicherheit.',
  begin: 'Noch ein Auto',
  beginOwn: 'Oder fang mit deinem eigenen an',
  newName: 'Name des neuen Autos',
  nameNeeded: 'Gib dem Auto zuerst einen Namen.',
  create: 'Neues Auto',
  first: { scale: 'Küchenwaage', gauge: 'Messschieber', anemometer: 'Flügelradanemometer', configuration: 'Wie es dasteht' },
  openFile: 'Austauschdatei öffnen…',
  demo: 'Demo-Auto öffnen',
  emptyTitle: 'Hier steht noch kein Auto',
  empty: 'Die Demo ist ein erfundenes Auto mit allen Ablesungen: Sieh sie dir zuerst an, und ändere, was du willst.',
  cars: 'Deine Autos',
  find: 'Auto oder Sitzung suchen',
  found: 'nichts gefunden | eins gezeigt | {count} gezeigt',
  more: '{count} weitere: Tippe einen Teil des Namens.',
  sessions: 'noch keine Sitzung | eine Sitzung | {count} Sitzungen',
  export: 'Exportieren',
  remove: 'Entfernen',
  removeTitle: '{name} entfernen?',
  removeText: 'Die Dateien wandern in den Ordner „removed“ der Bibliothek. Nichts wird gelöscht.',
  unreadable: 'Dateien, die sich nicht lesen ließen; sie bleiben, wie sie sind',
}

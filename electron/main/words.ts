/** What the frame around the page says: its menu and its questions, in the builder's language. */
import type { Preferences } from '@core/services'

const en = {
  menu: {
    file: 'File', edit: 'Edit', view: 'View', window: 'Window',
    about: 'About Squatbench', services: 'Services', hide: 'Hide Squatbench', hideOthers: 'Hide Others', unhide: 'Show All',
    close: 'Close Window', quit: 'Quit Squatbench',
    undo: 'Undo', redo: 'Redo', cut: 'Cut', copy: 'Copy', paste: 'Paste', delete: 'Delete', selectAll: 'Select All',
    reload: 'Reload', resetZoom: 'Actual Size', zoomIn: 'Larger', zoomOut: 'Smaller', fullscreen: 'Full Screen',
    minimize: 'Minimise', zoom: 'Zoom', front: 'Bring All to Front',
  },
  leave: {
    message: 'Something is not written down yet.',
    detail: 'A value that stands in a field and was not entered is lost when you leave. What was entered and could not '
      + 'be written is kept by this window and taken in when it opens again, unless the bar above says that it is in '
      + 'this page only.',
    stay: 'Stay', go: 'Leave',
  },
  crashed: {
    message: 'The page ended by itself.',
    detail: (reason: string) => `The system says: ${reason}. What was written down is safe, and what was entered and could not `
      + 'be written is taken in when the page opens again.',
    reload: 'Open the page again', quit: 'Quit Squatbench',
  },
  otherLibrary: {
    message: 'Squatbench is open on another library.',
    detail: (open: string, asked: string) =>
      `Open is ${open}\nAsked for was ${asked}\n\nClose this window first, then start Squatbench on the other library.`,
    understood: 'Understood',
  },
  failed: {
    title: 'Squatbench could not open its window',
    detail: (why: string) => `${why}\n\nWhat was written down is safe. Start Squatbench again; if this stays, install it anew.`,
  },
  tables: {
    title: 'Folder for the tables', choose: 'Put them here',
    replace: 'Some of these tables are in that folder already.',
    replaceDetail: (names: string) => `${names}\n\nReplacing them can’t be taken back.`,
    cancel: 'Cancel', go: 'Replace',
    failed: (folder: string, why: string) =>
      `The tables could not all be written to ${folder} (${why}). Choose a folder that you may write to, with space left.`,
  },
}

export type FrameWords = typeof en

const de: FrameWords = {
  menu: {
    file: 'Datei', edit: 'Bearbeiten', view: 'Ansicht', window: 'Fenster',
    about: 'Über Squatbench', services: 'Dienste', hide: 'Squatbench ausblenden', hideOthers: 'Andere ausblenden',
    unhide: 'Alle einblenden', close: 'Fenster schließen', quit: 'Squatbench beenden',
    undo: 'Rückgängig', redo: 'Wiederholen', cut: 'Ausschneiden', copy: 'Kopieren', paste: 'Einfügen', delete: 'Löschen',
    selectAll: 'Alles auswählen',
    reload: 'Neu laden', resetZoom: 'Originalgröße', zoomIn: 'Größer', zoomOut: 'Kleiner', fullscreen: 'Vollbild',
    minimize: 'Minimieren', zoom: 'Zoomen', front: 'Alle nach vorne bringen',
  },
  leave: {
    message: 'Etwas ist noch nicht gesichert.',
    detail: 'Ein Wert, der in einem Feld steht und nicht eingegeben wurde, geht verloren, wenn du die Seite verlässt. Was '
      + 'eingegeben ist und nicht geschrieben werden konnte, behält dieses Fenster und nimmt es auf, wenn es wieder '
      + 'aufgeht, außer die Leiste oben sagt, dass es nur in dieser Seite steht.',
    stay: 'Bleiben', go: 'Verlassen',
  },
  crashed: {
    message: 'Die Seite hat sich von selbst beendet.',
    detail: (reason) => `Das System sagt: ${reason}. Was gesichert ist, ist sicher, und was eingegeben ist und nicht geschrieben `
      + 'werden konnte, wird aufgenommen, wenn die Seite wieder aufgeht.',
    reload: 'Die Seite wieder öffnen', quit: 'Squatbench beenden',
  },
  otherLibrary: {
    message: 'Squatbench ist mit einer anderen Bibliothek offen.',
    detail: (open, asked) =>
      `Offen ist ${open}\nGefragt war ${asked}\n\nSchließ erst dieses Fenster, dann starte Squatbench mit der anderen Bibliothek.`,
    understood: 'Verstanden',
  },
  failed: {
    title: 'Squatbench konnte sein Fenster nicht öffnen',
    detail: (why) => `${why}\n\nWas gesichert ist, ist sicher. Starte Squatbench neu; bleibt es dabei, installiere es neu.`,
  },
  tables: {
    title: 'Ordner für die Tabellen', choose: 'Hier ablegen',
    replace: 'Einige dieser Tabellen liegen schon in diesem Ordner.',
    replaceDetail: (names) => `${names}\n\nDas Ersetzen lässt sich nicht rückgängig machen.`,
    cancel: 'Abbrechen', go: 'Ersetzen',
    failed: (folder, why) =>
      `Die Tabellen konnten nicht alle nach ${folder} geschrieben werden (${why}). Wähl einen Ordner, in den du schreiben darfst und der Platz hat.`,
  },
}

/** The words of a language. */
export const frameWords = (language: Preferences['language']): FrameWords => ({ en, de })[language]

/** German: the shell and the parts so far; where a sentence is missing, English stands. */
export const de = {
  shell: {
    skip: 'Zur Arbeit springen', path: 'Der Weg', allCars: 'Alle Autos', help: 'Hilfe', preferences: 'Einstellungen',
    undo: 'Zurücknehmen', redo: 'Wiederholen', saved: 'Aufgeschrieben', saving: 'Schreibe…',
    waiting: 'Noch nicht aufgeschrieben: neuer Versuch', next: 'Als Nächstes',
    steps: {
      chassis: 'Auto', loads: 'Gewichte', squat: 'Einfedern', curve: 'Kennlinien', airflow: 'Anströmung', camera: 'Kamera',
      load: 'Abtrieb', decide: 'Entscheiden', track: 'Streckenprobe', report: 'Bericht',
    },
    state: { done: 'fertig', begun: 'begonnen', open: 'offen', optional: 'wenn du magst' },
    working: 'Rechne…', cancel: 'Abbrechen', close: 'Schließen',
  },
  parts: {
    atLeast: 'mindestens', atMost: 'höchstens', between: 'zwischen {low} und {high}', untold: 'nicht feststellbar',
    interval: '{percent}-%-Intervall {low} bis {high}', oneSided: 'einseitig, {percent} %', whence: 'Woher kommt das?',
    table: 'Als Tabelle zeigen', chart: 'Als Bild zeigen', caution: 'Vorsicht', total: 'Ganzes Auto',
    corner: { frontLeft: 'vorn links', frontRight: 'vorn rechts', rearLeft: 'hinten links', rearRight: 'hinten rechts' },
    axle: { front: 'vorn', rear: 'hinten' }, axleTitle: { front: 'Vorderachse', rear: 'Hinterachse' },
  },
}

import type { load as en } from '../en/load'
import type { Words } from '../types'

export const load: Words<typeof en> = {
  controlRuns: '{n} Kontrolllauf abgezogen | {n} Kontrollläufe abgezogen',
  otherSpeed: 'Nach einer anderen Geschwindigkeit fragen, Setups vergleichen',
  emptyTitle: 'Noch kein Abtrieb', empty: 'Dafür braucht es einen Einfedertest mit Kennlinie und einen Lauf im Luftstrom.', runs: 'Alle Läufe', airSpeed: 'Luft',
  noControl: 'Kein Kontrolllauf abgezogen, denn in diesem Luftstrom gibt es keinen: Was der Strahl allein an der Karosserie tut, steckt noch in dieser Zahl.', noControlPass: 'Kein Kontrolllauf abgezogen: Was die Luft an der Karosserie des vorbeifahrenden Autos tut, steckt in dieser Zahl.', controlTaken: 'Kontrolllauf abgezogen, auf den Luftstrom dieses Laufs umgerechnet: {names}.', controlsTaken: 'Mittel der Kontrollläufe abgezogen, jeder auf den Luftstrom dieses Laufs umgerechnet: {names}.', controlAt: '{name} bei {speed}', speedUnknown: 'einer nicht eingetragenen Geschwindigkeit', taken: 'Abgezogen, {axle}',
  picture: 'Absenkung jeder Achslinie in diesem Lauf.', limits: 'Nicht nachgebildet: Der Boden steht unter dem Auto still, der Strahl ist vielleicht schmaler als die Spur, die Luft ist eingeengt, die Räder rollen nicht.',
  stated: 'Angegebenes Ergebnis', byTrials: 'Durch Simulation prüfen', statedOf: 'Abtrieb, {axle}', trials: '{count} Versuche.', trialsFailed: 'Die Versuche brachen ab: {why}. Starte sie noch einmal.', agrees: 'Das Intervall oben stimmt damit überein.', disagrees: 'Das Intervall oben weicht um mehr ab, als die Prüfung zulässt: Wo es darauf ankommt, nimm dieses.',
}

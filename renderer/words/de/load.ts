import type { load as en } from '../en/load'
import type { Words } from '../types'

export const load: Words<typeof en> = {
  emptyTitle: 'Noch kein Abtrieb', empty: 'Es braucht ein Einfedern mit Kennlinie und einen Lauf in bewegter Luft.', runs: 'Alle Läufe',
  noControl: 'Kein Kontrolllauf in dieser Luft: was der Strahl allein an der Karosserie tut, steckt noch in dieser Zahl.', controlTaken: 'Kontrolllauf abgezogen, {axle}:',
  picture: 'Absinken jeder Achslinie in diesem Lauf.', limits: 'Nicht nachgebildet: der Boden steht unter dem Auto still, der Strahl ist vielleicht schmaler als die Spur, die Luft ist eingeengt, die Räder rollen nicht.',
  stated: 'Ergebnis mit Aussage', byTrials: 'Nach Monte Carlo angeben', asRead: 'Wie abgelesen, {axle}, vor dem Kontrolllauf', trials: '{count} Versuche.', agrees: 'Die Fortpflanzung stimmt damit überein.', disagrees: 'Die Fortpflanzung stimmt nicht innerhalb der Toleranz überein: dieses gilt.',
}

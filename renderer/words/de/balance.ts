import type { balance as en } from '../en/balance'
import type { Words } from '../types'

export const balance: Words<typeof en> = {
  title: 'Balance', how: 'Stationäre Kreise bei mehreren Geschwindigkeiten verraten den Eigenlenkgradienten (ISO 4138): wie viel mehr Lenkwinkel, oder Weg, jedes m/s² Querbeschleunigung braucht. Fahre sie deutlich unter der Haftgrenze.',
  gradient: '{name}, {run}: Eigenlenkgradient, rad je m/s²', tends: { understeer: 'Neigt zum Untersteuern.', oversteer: 'Neigt zum Übersteuern.', neutral: 'Neutral innerhalb der Unsicherheit.', untold: 'Wohin es neigt, ist nicht feststellbar.' },
  speed: 'Eine Kurve mit', sentence: 'bei {speed} trägt die Vorderachse {share} dessen, was sie braucht.', sentenceShare: 'bei {speed} trägt die Vorderachse {share} dessen, was die Hinterachse trägt, jede nach ihrem Bedarf.',
  tooFast: 'Keine der Achsen trägt, was sie braucht: So schnell kommt das Auto nicht durch diese Kurve.', frontOverRear: 'Vorne neben hinten',
  beside: 'Gradient neben den Anteilen', setUp: 'Setup', gradientShort: 'Eigenlenkgradient, rad je m/s²', airShare: 'Vorderer Anteil der Luft', weightShare: 'Vorderer Anteil im Stand',
  change: '{after} nach {before}: Der Gradient ändert sich um {change} rad je m/s².', changes: { more: 'Es untersteuert mehr.', less: 'Es untersteuert weniger.', same: 'Eine Änderung ist nicht feststellbar.' },
  airLess: 'Seine Luft belastet vorne weniger als das Gewicht: Nach dem Prüfstand untersteuert es mehr, je schneller es fährt.', airMore: 'Seine Luft belastet vorne mehr als das Gewicht: Nach dem Prüfstand untersteuert es weniger, je schneller es fährt.', airSame: 'Seine Luft belastet vorne etwa wie das Gewicht: Nach dem Prüfstand ändert sich mit der Geschwindigkeit nichts.', none: 'Dafür muss der Prüfstand ein gefahrenes Setup kennen, und das Auto seine Radlasten.',
  steering: 'Lenkung', steerings: { held: 'in einer Stellung gehalten', logged: 'Winkel aufgezeichnet' }, uRadius: 'u des Radius', uSteer: 'u des Winkels', point: 'Kreis {count}', lap: 'Runde', steer: 'Winkel der Vorderräder', addPoint: 'Kreis bei anderer Geschwindigkeit',
  addRun: 'Stationäre Kreise', runName: 'Stationär {count}', putAside: 'Beiseitelegen: Kreis {count}', takeBack: 'Zurückholen: Kreis {count}',
}

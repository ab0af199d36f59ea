/** Why a result is a bound, or can't be told, in German. `{axle}` stands for Vorder or Hinter. */
import type { REASONS_EN, UNFITTED_EN, UNTOLD_EN } from './whyEn'

export const REASONS_DE: typeof REASONS_EN = {
  touchedGround: 'der Unterboden lag auf',
  mayTouch: 'der Unterboden kann dort aufliegen: Dann ist die Last nur eine untere Grenze',
  beyondCalibratedRange: 'mehr als die aufgelegten Gewichte',
  belowThreshold: 'unter der Kraft, ab der sich die Federung bewegt',
  withinFriction: 'innerhalb der Reibung der Federung',
  rising: 'das Auto hob sich, und im Einfedertest hat keine Last diese Achse angehoben',
  tooFewLoads: 'zu wenige Gewichte im Einfedertest, um die Form der Kennlinie zu kennen',
  memberCensored: 'ein Teil davon ist nur als „mindestens“ oder „höchstens“ bekannt',
  denominatorNearZero: 'die Last ist zu klein für ein Verhältnis',
  noFixedPoint: 'dort stellt sich keine Höhe ein',
  missing: 'eine Ablesung dafür fehlt noch',
}

export const UNTOLD_DE: typeof UNTOLD_EN = {
  noCurve: 'die {axle}achse hat noch keine Kennlinie, nach der sich lesen lässt: Ihr Einfedertest fehlt oder hat zu wenige Gewichte',
  noTouchDrop: 'die Absenkung, bei der der Unterboden an der {axle}achse aufsetzt, ist nicht eingetragen',
  cornersNotRead: 'für die {axle}achse wurden zu wenige Ecken abgelesen',
  noneLifted: 'das Auto hob sich, und im Einfedertest hat keine Last die {axle}achse angehoben: Leg eine jenseits der anderen Achse auf',
  mayBePressed: 'der aufliegende Unterboden drückt vielleicht auf die {axle}achse: Sag auf der Seite des Autos, wo er aufliegt',
  notPressed: 'die {axle}achse wird nicht niedergedrückt: Sie setzt bei keiner Geschwindigkeit auf',
  tyresOutgrow: 'die Reifen der {axle}achse wachsen schneller, als sie einfedert',
  notFree: 'die {axle}achse bewegt sich bei dieser Geschwindigkeit nicht frei',
  noRun: 'kein Lauf zeigt diese Last',
  noLoad: 'ihre Last ist nicht bekannt',
  nearZero: 'die Last ist vielleicht null: zu nahe daran',
  oneSpeed: 'nur eine Geschwindigkeit: Es braucht Läufe bei deutlich verschiedenen',
  noAxleWeights: 'die Radlasten sind nicht eingetragen',
  noMass: 'die Masse des Autos ist nicht eingetragen',
  noRoom: 'so viel Platz ist nicht einmal im Stand',
  noHeight: 'bei dieser Geschwindigkeit stellt sich keine Höhe ein',
  springHoldsNone: 'diese Feder hält bei dieser Geschwindigkeit keine Höhe',
  onGround: 'der Unterboden liegt bei dieser Geschwindigkeit auf',
  oneEnd: 'das andere Ende ist nicht bekannt',
  movedTogether: 'zwei von Setup, Reihenfolge und Reifentemperatur haben sich gemeinsam verändert',
  noGrip: 'auf keinem Kreis wurde ein Niveau gehalten, oder es fehlt ein Radius',
  notDrivenTwice: 'kein Setup wurde zweimal gefahren',
  singleLap: 'eines der beiden hat nur eine Runde, und kein anderer Lauf zeigt die Streuung',
  mayLift: 'eine Achse hebt vielleicht ab',
  bothBounds: 'von beiden Achsen sind nur Grenzen bekannt',
  allLift: 'der Auftrieb würde das ganze Auto tragen',
  tyreFirst: 'der Reifen gibt schneller nach als die Kennlinie',
  noBound: 'auf keiner Seite bleibt eine Grenze',
  divisorNearZero: 'es ist der Anteil an etwas, das null sein kann',
  airAndRolling: 'Luft und Rollen lassen sich mit diesen Ausrollversuchen nicht trennen: schneller beginnen oder länger rollen lassen',
  notRound: 'mit diesen Werten kommt das Auto nicht um den Kurs',
  holdsAnySpeed: 'die Last wächst schneller als das, was diese Kurve fordert: der Grip begrenzt hier nicht',
  bothLapsBounds: 'von beiden Runden ist nur „höchstens“ bekannt',
}

/** Why a shape could not be fitted. */
export const UNFITTED_DE: typeof UNFITTED_EN = {
  badInput: 'Diese Ablesungen lassen keine Anpassung zu.',
  tooFewPoints: 'Zu wenige Ablesungen oder Gewichte für diese Form.',
  exactPoint: 'Eine Ablesung hat gar keine Unsicherheit.',
  notIdentifiable: 'Die Ablesungen trennen ihre Parameter nicht.',
  notConverged: 'Eine beste Anpassung ließ sich nicht finden.',
  atBound: 'Die Ablesungen zeigen keine solche Kennlinie.',
  infeasibleStart: 'Die Ablesungen zeigen keine solche Kennlinie.',
}

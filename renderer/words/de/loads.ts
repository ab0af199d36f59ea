import type { loads as en } from '../en/loads'
import type { Words } from '../types'

export const loads: Words<typeof en> = {
  title: 'Was die Waage zeigt, {unit}', caution: 'Bleischrot ist giftig: Lass es in geschlossenen Beuteln, wasch dir die Hände, halte es von Kindern und Essen fern. Halte dich bei Umgang und Entsorgung an die örtlichen Regeln. Heb schwere Beutel über den Tisch, nicht über deine Füße.',
  onScale: 'Auf der Waage', emptyTitle: 'Noch nichts gewogen', empty: 'Beutel mit Schrot, Akkus, Stahl: alles, was still liegt. Fünf oder sechs Gewichte, verteilt über die Einfederung einer schnellen Runde, geben eine gute Kennlinie.',
  load: 'Gewicht', name: 'Name des Gewichts', weighings: 'Wägungen', mass: 'Masse', newName: 'Neues Gewicht', newMass: 'Waage zeigt', newHint: 'Enter nimmt es auf', needScale: 'Gib dem Auto zuerst eine Waage.', putAsideShort: 'Beiseitelegen', takeBackShort: 'Zurückholen', bag: 'Beutel {count}',
  weighing: '{name}, Wägung {count}', putAside: 'Beiseitelegen: {name}, Wägung {count}', takeBack: 'Zurückholen: {name}, Wägung {count}', retyped: 'neu getippt',
  doubt: {
    disagree: 'Die Wägungen {one} und {other} liegen {difference} auseinander.',
    apart: '{one} liegt weit weg von den anderen Wägungen bei {other}.',
    swapped: 'Mit zwei vertauschten Ziffern wäre {one} aber {swapped}, und beides passte zusammen: Ist eine davon so getippt? Berichtige sie, oder wiege noch einmal.',
    weighAgain: 'Wiege es noch einmal und lege beiseite, was falsch ist.',
    beyondCar: '{load} ist schwerer als das Auto mit {car}. Stimmt das, und stimmt die Einheit?',
    beyondOthers: '{load} ist ein Vielfaches der anderen Gewichte, die bei etwa {others} liegen. Stimmt das, und stimmt die Einheit?',
  },
  check: 'Prüfung der Waage', checkTitle: 'Prüfung: {name}', checkHow: 'Leg eine Masse auf, die du besser kennst als die Waage: ein Prüfgewicht, oder abgezählte Münzen bekannter Masse. Der Skalenfaktor der Waage steckt in jedem Gewicht und mittelt sich nicht heraus.',
  known: 'Bekannte Masse', shown: 'Waage zeigt', dropCheck: 'herausnehmen', gain: 'wahrer durch gezeigten Wert,', gainChecked: 'aus der Prüfung', gainAssumed: 'angenommen; noch nicht geprüft',
}

import type { preferences as en } from '../en/preferences'
import type { Words } from '../types'

export const preferences: Words<typeof en> = {
  label: { theme: 'Hell oder dunkel', language: 'Sprache', force: 'Kraft', length: 'Längen am Auto', speed: 'Geschwindigkeit', mass: 'Masse', temperature: 'Temperatur', decimalMark: 'Dezimalzeichen der Anzeige (tippen kannst du beide)', cues: 'Signal in der Werkbank-Ansicht' },
  theme: { system: 'wie das System', light: 'hell', dark: 'dunkel' }, language: { en: 'English', de: 'Deutsch' },
  force: { newton: 'Newton (N)', gramForce: 'Pond, Gramm-Kraft (gf)', ounceForce: 'Unzen-Kraft (ozf)', poundForce: 'Pfund-Kraft (lbf)' }, length: { millimetre: 'Millimeter', inch: 'Zoll' },
  speed: { metrePerSecond: 'm/s', kilometrePerHour: 'km/h', milePerHour: 'mph' }, mass: { gram: 'Gramm', kilogram: 'Kilogramm', ounce: 'Unze' },
  temperature: { celsius: '°C', fahrenheit: '°F' }, decimalMark: { point: 'Punkt: 12.5', comma: 'Komma: 12,5' }, cues: { none: 'keins', beep: 'Ton', speech: 'gesprochen' },
}

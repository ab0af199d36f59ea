import type { PreferenceWords } from '../types'

export const preferences = {
  label: { theme: 'Light or dark', language: 'Language', force: 'Force', length: 'Lengths on the car', speed: 'Speed', mass: 'Mass', temperature: 'Temperature', decimalMark: 'Decimal mark shown (both can be typed)', cues: 'Cues in bench mode' },
  theme: { system: 'as the system', light: 'light', dark: 'dark' }, language: { en: 'English', de: 'Deutsch' },
  force: { newton: 'newton (N)', gramForce: 'gram-force (gf)', ounceForce: 'ounce-force (ozf)', poundForce: 'pound-force (lbf)' }, length: { millimetre: 'millimetre', inch: 'inch' },
  speed: { metrePerSecond: 'm/s', kilometrePerHour: 'km/h', milePerHour: 'mph' }, mass: { gram: 'gram', kilogram: 'kilogram', ounce: 'ounce' },
  temperature: { celsius: '°C', fahrenheit: '°F' }, decimalMark: { point: 'point: 12.5', comma: 'comma: 12,5' }, cues: { none: 'none', beep: 'beep', speech: 'spoken' },
} satisfies PreferenceWords

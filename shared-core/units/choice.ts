/** Which units a builder chose, and the unit that follows from it for every quantity. */
import type { Quantity, Unit } from './quantities'

/** Every unit that can be chosen, in the order shown; preferences, top bar and their words follow this list. */
export const CHOICES = {
  force: ['newton', 'gramForce', 'ounceForce', 'poundForce'],
  length: ['millimetre', 'inch'],
  speed: ['metrePerSecond', 'kilometrePerHour', 'milePerHour'],
  mass: ['gram', 'kilogram', 'ounce'],
  temperature: ['celsius', 'fahrenheit'],
} as const satisfies { readonly [Q in Quantity]?: readonly Unit[] }

export const DECIMAL_MARKS = ['point', 'comma'] as const
export type DecimalMark = (typeof DECIMAL_MARKS)[number]

/** What a unit can be chosen for. */
export type UnitKind = keyof typeof CHOICES

/** The part of a builder's preferences that numbers depend on. */
export type UnitChoice =
  { readonly [K in UnitKind]: (typeof CHOICES)[K][number] } & { readonly decimalMark: DecimalMark }

/** N, mm, m/s, g, degrees Celsius, decimal point. */
export const DEFAULT_UNITS = {
  force: 'newton', length: 'millimetre', speed: 'metrePerSecond', mass: 'gram', temperature: 'celsius',
  decimalMark: 'point',
} as const satisfies UnitChoice

const RATE: Record<UnitChoice['force'], Unit> = {
  newton: 'newtonPerMillimetre', gramForce: 'gramForcePerMillimetre', ounceForce: 'ounceForcePerInch',
  poundForce: 'poundForcePerInch',
}

/** The unit in which a quantity is shown and typed. Lift areas are shown in cm2 or in2; pressure in hPa. */
export function unitFor(quantity: Quantity, choice: UnitChoice): Unit {
  switch (quantity) {
    case 'force': return choice.force
    case 'length': return choice.length
    case 'distance': return choice.length === 'inch' ? 'foot' : 'metre'
    case 'speed': return choice.speed
    case 'mass': return choice.mass
    case 'temperature': return choice.temperature
    case 'pressure': return 'hectopascal'
    case 'rate': return RATE[choice.force]
    case 'acceleration': return 'standardGravity'
    case 'area': return choice.length === 'inch' ? 'squareInch' : 'squareCentimetre'
    case 'density': return 'kilogramPerCubicMetre'
    case 'power': return 'watt'
    case 'time': return 'second'
    case 'frequency': return 'hertz'
    case 'angle': return 'degree'
    case 'share': return 'percent'
    case 'shareMove': return 'percentagePoint'
    case 'number': return 'plain'
  }
}

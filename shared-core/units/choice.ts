/** Which units a builder chose, and the unit that follows from it for every quantity. */
import type { Quantity, Unit } from './quantities'

export type ForceUnit = 'newton' | 'gramForce' | 'poundForce'
export type LengthUnit = 'millimetre' | 'inch'
export type SpeedUnit = 'metrePerSecond' | 'kilometrePerHour' | 'milePerHour'
export type MassUnit = 'gram' | 'kilogram' | 'ounce'
export type TemperatureUnit = 'celsius' | 'fahrenheit'
export type DecimalMark = 'point' | 'comma'

/** The part of a builder's preferences that numbers depend on. */
export interface UnitChoice {
  readonly force: ForceUnit
  readonly length: LengthUnit
  readonly speed: SpeedUnit
  readonly mass: MassUnit
  readonly temperature: TemperatureUnit
  readonly decimalMark: DecimalMark
}

/** N, mm, m/s, g, degrees Celsius, decimal point. */
export const DEFAULT_UNITS: UnitChoice = {
  force: 'newton', length: 'millimetre', speed: 'metrePerSecond', mass: 'gram', temperature: 'celsius',
  decimalMark: 'point',
}

const RATE: Record<ForceUnit, Unit> = {
  newton: 'newtonPerMillimetre', gramForce: 'gramForcePerMillimetre', poundForce: 'poundForcePerInch',
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
    case 'time': return 'second'
    case 'frequency': return 'hertz'
    case 'angle': return 'degree'
    case 'share': return 'percent'
    case 'number': return 'plain'
  }
}

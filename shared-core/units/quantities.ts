/**
 * The units a builder may see and type, each tied to the one unit its quantity is kept in.
 *
 * Factors are exact by definition: the inch is 25.4 mm, the mile 1609.344 m and the avoirdupois pound
 * 0.45359237 kg (international yard and pound agreement, 1959); standard gravity is 9.80665 m/s2
 * (3rd CGPM, 1901). All stand in NIST SP 811 (2008), appendix B.8, in bold as exact.
 */

/** Standard acceleration of free fall, m/s2, exact (3rd CGPM, 1901). */
export const STANDARD_GRAVITY_MS2 = 9.80665

const POUND_KG = 0.45359237
const INCH_MM = 25.4
const KGF_N = STANDARD_GRAVITY_MS2

/**
 * What is measured, and the unit it is kept in: force N, length on the car mm, distance on the track m,
 * speed m/s, mass kg, temperature K, pressure Pa, wheel rate N/mm, acceleration m/s2, lift area m2, air
 * density kg/m3, power W, time s, frequency Hz, angle deg, share 1, move of a share 1.
 */
export type Quantity =
  | 'force' | 'length' | 'distance' | 'speed' | 'mass' | 'temperature' | 'pressure' | 'rate' | 'acceleration' | 'area'
  | 'density' | 'power' | 'time' | 'frequency' | 'angle' | 'share' | 'shareMove' | 'number'

interface UnitSpec {
  readonly quantity: Quantity
  readonly symbol: string
  /** Kept value = shown value x scale + offset. */
  readonly scale: number
  readonly offset: number
  /** What may be typed after the number, besides the symbol; lower case. */
  readonly typed: readonly string[]
}

const unit = (quantity: Quantity, symbol: string, scale: number, typed: readonly string[] = [], offset = 0): UnitSpec =>
  ({ quantity, symbol, scale, offset, typed })

export const UNITS = {
  newton: unit('force', 'N', 1),
  gramForce: unit('force', 'gf', KGF_N / 1000),
  kilogramForce: unit('force', 'kgf', KGF_N),
  ounceForce: unit('force', 'ozf', POUND_KG / 16 * KGF_N),
  poundForce: unit('force', 'lbf', POUND_KG * KGF_N),
  millimetre: unit('length', 'mm', 1),
  inch: unit('length', 'in', INCH_MM, ['"', '″', 'inch', 'inches']),
  metre: unit('distance', 'm', 1),
  foot: unit('distance', 'ft', 12 * INCH_MM / 1000, ['′']),
  metrePerSecond: unit('speed', 'm/s', 1),
  kilometrePerHour: unit('speed', 'km/h', 1 / 3.6, ['kph', 'kmh']),
  milePerHour: unit('speed', 'mph', 0.44704),
  gram: unit('mass', 'g', 1e-3),
  kilogram: unit('mass', 'kg', 1),
  ounce: unit('mass', 'oz', POUND_KG / 16),
  pound: unit('mass', 'lb', POUND_KG),
  kelvin: unit('temperature', 'K', 1),
  celsius: unit('temperature', '°C', 1, ['c'], 273.15),
  fahrenheit: unit('temperature', '°F', 1 / 1.8, ['f'], 459.67 / 1.8),
  pascal: unit('pressure', 'Pa', 1),
  hectopascal: unit('pressure', 'hPa', 100, ['mbar']),
  kilopascal: unit('pressure', 'kPa', 1000),
  newtonPerMillimetre: unit('rate', 'N/mm', 1),
  gramForcePerMillimetre: unit('rate', 'gf/mm', KGF_N / 1000),
  ounceForcePerInch: unit('rate', 'ozf/in', POUND_KG / 16 * KGF_N / INCH_MM, ['oz/in']),
  poundForcePerInch: unit('rate', 'lbf/in', POUND_KG * KGF_N / INCH_MM, ['lb/in']),
  metrePerSecondSquared: unit('acceleration', 'm/s²', 1, ['m/s2', 'm/s^2']),
  standardGravity: unit('acceleration', 'g', STANDARD_GRAVITY_MS2),
  squareMetre: unit('area', 'm²', 1, ['m2', 'm^2']),
  squareCentimetre: unit('area', 'cm²', 1e-4, ['cm2', 'cm^2']),
  squareInch: unit('area', 'in²', (INCH_MM / 1000) ** 2, ['in2', 'in^2']),
  kilogramPerCubicMetre: unit('density', 'kg/m³', 1, ['kg/m3', 'kg/m^3']),
  watt: unit('power', 'W', 1),
  second: unit('time', 's', 1),
  millisecond: unit('time', 'ms', 1e-3),
  degree: unit('angle', '°', 1, ['deg']),
  one: unit('share', '', 1),
  percent: unit('share', '%', 0.01),
  /** Of a share that moves: a relative change of it would be another thing (ISO 80000-1, from memory). */
  percentagePoint: unit('shareMove', 'pp', 0.01),
  hertz: unit('frequency', 'Hz', 1),
  plain: unit('number', '', 1),
} as const satisfies Record<string, UnitSpec>

export type Unit = keyof typeof UNITS
export const UNIT_NAMES = Object.keys(UNITS) as [Unit, ...Unit[]]

/** The units of a quantity, the one that it is kept in among them. */
export const unitsOf = (quantity: Quantity): Unit[] => UNIT_NAMES.filter((each) => UNITS[each].quantity === quantity)

/** What a unit measures. */
export const quantityOf = (of: Unit): Quantity => UNITS[of].quantity

/** How a unit is written after a number. */
export const symbolOf = (of: Unit): string => UNITS[of].symbol

/** What may be typed for a unit besides its symbol, in lower case. */
export const typedSymbols = (of: Unit): readonly string[] => UNITS[of].typed

/** A value shown in a unit, in the unit its quantity is kept in. `toKept(212, 'fahrenheit')` is 373.15. */
export const toKept = (shown: number, from: Unit): number => shown * UNITS[from].scale + UNITS[from].offset

/** A kept value in the unit it is to be shown in. `fromKept(4.4482216152605, 'poundForce')` is 1. */
export const fromKept = (kept: number, to: Unit): number => (kept - UNITS[to].offset) / UNITS[to].scale

/** The same for differences and standard uncertainties: no offset. `stepToKept(1.8, 'fahrenheit')` is 1. */
export const stepToKept = (shown: number, from: Unit): number => shown * UNITS[from].scale

/** A kept difference or standard uncertainty in the unit it is to be shown in. */
export const stepFromKept = (kept: number, to: Unit): number => kept / UNITS[to].scale

/**
 * Local gravity. Normal gravity on the WGS 84 ellipsoid by Somigliana's closed formula, with the
 * second-order height term (NIMA TR8350.2, 3rd ed. 2000, section 4, eq. 4-1 and 4-3).
 */
import { fromSource, known, type Uncertain } from '@core/uncertainty'
import { STANDARD_GRAVITY_MS2 } from '@core/units'

const EQUATOR_MS2 = 9.7803253359
const SOMIGLIANA_K = 0.00193185265241
const ECCENTRICITY_SQUARED = 0.00669437999013
const SEMI_MAJOR_M = 6378137
const FLATTENING = 1 / 298.257223563
const GRAVITY_RATIO_M = 0.00344978650684

/** Standard uncertainty of normal against true gravity: a typical free-air anomaly of 50 mGal, m/s2. */
const ANOMALY_U_MS2 = 5e-4
/** Half the span of gravity between equator and poles at sea level about the standard value, m/s2. */
const SPAN_MS2 = 0.0263

/** Normal gravity, m/s2. Latitude -90 to 90 degrees, ellipsoidal height -500 to 9000 m. */
export function normalGravity(latitudeDeg: number, heightM: number): number {
  const sine2 = Math.sin((latitudeDeg * Math.PI) / 180) ** 2
  const surface = (EQUATOR_MS2 * (1 + SOMIGLIANA_K * sine2)) / Math.sqrt(1 - ECCENTRICITY_SQUARED * sine2)
  const linear = (2 / SEMI_MAJOR_M) * (1 + FLATTENING + GRAVITY_RATIO_M - 2 * FLATTENING * sine2)
  return surface * (1 - linear * heightM + (3 / SEMI_MAJOR_M ** 2) * heightM ** 2)
}

export interface Gravity {
  readonly ms2: Uncertain
  /** `place`: from latitude and height; `standard`: 9.80665, with the spread over the Earth as its uncertainty. */
  readonly from: 'place' | 'standard'
}

/** Gravity at a place; the standard value where the place is not told. */
export function localGravity(place: { latitudeDeg: number; heightM: number } | null): Gravity {
  if (!place) {
    return { ms2: fromSource(STANDARD_GRAVITY_MS2, SPAN_MS2 / Math.sqrt(3), known('gravity', 'gravity', 'rectangular')), from: 'standard' }
  }
  return {
    ms2: fromSource(normalGravity(place.latitudeDeg, place.heightM), ANOMALY_U_MS2, known('gravity', 'gravity')), from: 'place',
  }
}

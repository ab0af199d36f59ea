/**
 * Level in a corner against the closed form: with grip rising straight with load (sensitivity 0), m v^2 / R =
 * mu (m g + k v^2), so v^2 = mu g / (1/R - mu k / m); a first-order u is worked out from it by hand.
 */
import { describe, expect, it } from 'vitest'
import { cornerLevels, type CornerCar } from '@core/course'
import { exact, fromSource, known } from '@core/uncertainty'

const G = 9.80665
const RADIUS_M = 8
const MASS_KG = 1.6
const GRIP_MS2 = 14
const DENSITY = 1.2

const car = (configurationId: string, cla: number, change: Partial<CornerCar> = {}): CornerCar => ({
  configurationId, massKg: exact(MASS_KG), gripMs2: exact(GRIP_MS2), sensitivity: exact(0), claM2: exact(cla),
  densityKgM3: exact(DENSITY), mostLoadN: Infinity, boundOnly: null, ...change,
})
const levelBy = (cla: number, grip = GRIP_MS2): number => {
  const perSquare = (DENSITY / 2) * cla
  return grip / (1 - (grip / G) * (perSquare / MASS_KG) * RADIUS_M)
}

describe('level in a corner', () => {
  it('is the closed form’s', () => {
    const { outcomes, differences } = cornerLevels(RADIUS_M, G, [car('tray', 0.03), car('bare', 0)])
    expect(outcomes[0]!.levelMs2).toMatchObject({ kind: 'interval' })
    const [tray, bare] = outcomes.map(({ levelMs2 }) => (levelMs2.kind === 'interval' ? levelMs2.value : NaN))
    expect(tray! / levelBy(0.03)).toBeCloseTo(1, 6)
    expect(bare! / GRIP_MS2).toBeCloseTo(1, 6)
    expect(differences[0]!.levelMs2.kind === 'interval' && differences[0]!.levelMs2.value).toBeCloseTo(tray! - bare!, 6)
  })

  it('has the u that the closed form’s slope gives, and a shared grip all but leaves the difference', () => {
    const grip = fromSource(GRIP_MS2, 0.2, known('tyreGrip', 'grip'))
    const cars = [car('tray', 0.03, { gripMs2: grip }), car('wing', 0.031, { gripMs2: grip })]
    const { outcomes, differences } = cornerLevels(RADIUS_M, G, cars)
    const slope = (levelBy(0.03, GRIP_MS2 + 0.001) - levelBy(0.03, GRIP_MS2 - 0.001)) / 0.002
    const [said, difference] = [outcomes[0]!.levelMs2, differences[0]!.levelMs2]
    if (said.kind !== 'interval' || difference.kind !== 'interval') throw new Error('no value')
    // 2,000 draws know a standard deviation to 1 / sqrt(4000) = 1.6 %.
    expect(Math.abs(said.u / (0.2 * slope) - 1)).toBeLessThan(0.06)
    expect(difference.u).toBeLessThan(0.1 * said.u)
  })

  it('past touch-down is a bound, and so is what is compared with it', () => {
    const { outcomes, differences } = cornerLevels(RADIUS_M, G, [car('low', 0.03, { mostLoadN: 1 }), car('high', 0.02)])
    expect(outcomes.map(({ levelMs2 }) => levelMs2.kind)).toEqual(['atLeast', 'interval'])
    expect(differences[0]!.levelMs2.kind).toBe('atLeast')
  })

  it('can’t be told where the load outgrows what the corner takes', () => {
    expect(cornerLevels(40, G, [car('monster', 0.6)]).outcomes[0]!.levelMs2)
      .toMatchObject({ kind: 'untold', because: { code: 'holdsAnySpeed' } })
  })
})

/** A face of the six positions out of a short log or a paste. The texts are written here, by hand and by formula. */
import { describe, expect, it } from 'vitest'
import { FACES, type Accelerometer } from '@core/schema'
import { calibrateSensor, stillReading, type StillReading } from '@core/track'
import { exact } from '@core/uncertainty'
import { normals } from '../../worlds/logs/drive'

const G = 9.80665
/** Rows of a sensor at rest, with noise of 0.03 m/s2. */
function rows(x: number, y: number, z: number, { count = 200, per = 1, seed = 3, with: mark = ',' } = {}): string[] {
  const normal = normals(seed)
  return Array.from({ length: count }, (_, i) => [i / 100, ...[x, y, z].map((each) => (each + 0.03 * normal()) * per)]
    .map((each, at) => each.toFixed(at === 0 ? 2 : 5)).join(mark))
}
function read(text: string): StillReading {
  const found = stillReading(text)
  if ('trouble' in found) throw new Error(found.trouble)
  return found
}

describe('a face out of a log', () => {
  it.each([
    ['named, m/s²', ['time (s),ax (m/s^2),ay (m/s^2),az (m/s^2)', ...rows(0.1, -0.2, 9.9)], false],
    ['in g, told by size', ['t,x,y,z', ...rows(0.1, -0.2, 9.9, { per: 1 / G })], true],
    ['without names', rows(0.1, -0.2, 9.9), true],
    ['three columns pasted', rows(0.1, -0.2, 9.9, { with: '\t' }).map((row) => row.split('\t').slice(1).join('\t')), true],
  ] as const)('%s', (_, lines, guessed) => {
    const found = read([...lines, ''].join('\n'))
    expect(found.up).toBe('zUp')
    expect(found.count).toBe(200)
    expect(found.unitGuessed).toBe(guessed)
    for (const [axis, value] of [['x', 0.1], ['y', -0.2], ['z', 9.9]] as const) {
      // 0.03/sqrt(200) = 0.0021.
      expect(Math.abs(found.shownMs2[axis] - value)).toBeLessThan(0.008)
      expect(found.uMs2[axis]).toBeGreaterThan(0.0014)
      expect(found.uMs2[axis]).toBeLessThan(0.004)
    }
  })

  it('tells the face that lies down, too', () => {
    expect(read(rows(-9.7, 0.2, 0.1).join('\n')).up).toBe('xDown')
  })

  it.each([
    ['noNumbers', 'nothing\nto see'],
    ['noAxes', Array.from({ length: 20 }, (_, i) => `${i},9.8`).join('\n')],
    ['tooFew', rows(0, 0, G, { count: 6 }).join('\n')],
    ['moved', [...rows(0, 0, G, { count: 50 }), ...rows(0.4, 0, G, { count: 50, seed: 5 })].join('\n')],
    ['noGravity', ['t,ax (m/s²),ay (m/s²),az (m/s²)', ...rows(0, 0, 0.1)].join('\n')],
    ['onEdge', rows(6.9, 0, 6.9).join('\n')],
  ])('is refused: %s', (trouble, text) => {
    expect(stillReading(text)).toEqual({ trouble })
  })
})

describe('six faces out of logs', () => {
  it('give the sensor back, and are no better than their own noise', () => {
    const [gain, bias] = [[1.012, 0.991, 1.004], [0.12, -0.18, 0.08]] as const
    const readings: NonNullable<Accelerometer['sixPositions']>['readings'] = FACES.map((face, i) => {
      const along = ['x', 'y', 'z'].map((axis, at) =>
        gain[at]! * (face.startsWith(axis) ? (face.endsWith('Up') ? G : -G) : 0) + bias[at]!)
      const { up, count, shownMs2, uMs2 } = read(rows(along[0]!, along[1]!, along[2]!, { seed: 10 + i }).join('\n'))
      expect(up).toBe(face)
      return { id: `r-${i}`, up, shownMs2, log: { count, uMs2 }, setAside: null }
    })
    const test = { at: '2031-05-04T09:30:00.000Z', levelUDeg: 0, temperatureK: null, readings }
    const found = calibrateSensor({ id: 's' }, test, exact(G))
    if ('missing' in found) throw new Error('missing')
    for (const axis of [0, 1, 2] as const) {
      expect(Math.abs(found.matrix[axis][axis].value - gain[axis])).toBeLessThan(0.001)
      expect(Math.abs(found.biasMs2[axis].value - bias[axis])).toBeLessThan(0.006)
    }
    expect(found.scatterMs2).toBeGreaterThan(0.0017)
  })
})

/** A car taken in once more is told apart by its name. */
import { readFileSync } from 'node:fs'
import { freeName, namedApart } from '@renderer/screens/library/carIn'
import { expect, it } from 'vitest'

const DEMO = readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')
interface Named { readonly chassis: { readonly name: string } }

it('takes the least number that is free, and keeps within the length of a name', () => {
  expect(freeName('Heron', ['Kite'])).toBe('Heron')
  expect(freeName('Heron', ['Heron', 'Heron (2)', 'Kite'])).toBe('Heron (3)')
  const long = 'x'.repeat(200)
  expect(freeName(long, [long])).toBe(`${'x'.repeat(196)} (2)`)
})

it('changes the name alone', () => {
  const own = JSON.parse(DEMO) as Named
  const marked = JSON.parse(namedApart(DEMO, [own.chassis.name])) as Named
  expect(marked).toEqual({ ...own, chassis: { ...own.chassis, name: `${own.chassis.name} (2)` } })
  expect(JSON.parse(namedApart(DEMO, []))).toEqual(own)
})

import { describe, expect, it } from 'vitest'
import { remembered } from '../../../renderer/workers/remembered'

describe('a function that remembers', () => {
  it('works each question out once, told apart by value, and forgets the oldest of many', () => {
    const asked: number[] = []
    const square = remembered(({ of }: { readonly of: number }) => { asked.push(of); return of * of })
    expect([square({ of: 3 }), square({ of: 3 }), square({ of: 4 }), square({ of: 3 })]).toEqual([9, 9, 16, 9])
    expect(asked).toEqual([3, 4])
    for (let of = 10; of < 18; of++) square({ of })
    square({ of: 3 })
    expect(asked.at(-1)).toBe(3)
  })
})

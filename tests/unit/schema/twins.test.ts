import { describe, expect, it } from 'vitest'
import { openChassis, openSession } from '@core/schema'
import { someChassis, someSession } from '../../harness/documents'

describe('two entries of one id', () => {
  it('are refused in a session, by the path of the second', () => {
    const session = someSession('a', 'q', 8)
    session.readings[5]!.id = session.readings[2]!.id
    expect(openSession(session)).toMatchObject({
      kind: 'refused', problems: [{ where: 'readings[5].id', what: 'is the id of entry [2], too; give one another id', code: 'twin' }],
    })
  })

  it('are refused deep in a chassis', () => {
    const chassis = someChassis('a')
    const [first] = chassis.loads[0]!.weighings
    chassis.loads[0]!.weighings.push(first!)
    expect(openChassis(chassis)).toMatchObject({ problems: [{ where: 'loads[0].weighings[1].id' }] })
  })

  it('may stand in different lists', () => {
    const chassis = someChassis('a')
    chassis.configurations[0]!.id = chassis.loads[0]!.id
    expect(openChassis(chassis).kind).toBe('opened')
  })
})

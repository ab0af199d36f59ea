/** A short working day of writing, and what must be there after it was broken off. */
import type { Session } from '@core/schema'
import type { ProfileLibrary } from '@electron/services'
import { sampleChassis, sampleExchange, sampleSquat } from './sample'

/** What was acknowledged: session id to the numbers of its readings; the chassis in brackets. */
export type Acknowledged = Map<string, number[]>

const SAVES = 4

const numbersOf = (session: Session): number[] =>
  (session.kind === 'squat' ? session.readings.map((reading) => Number(reading.id.slice(1))) : [])

/** A chassis, a growing session, an import, a removal. Rejects at the first failure, as told by the answer. */
export async function day(library: ProfileLibrary, acknowledged: Acknowledged): Promise<void> {
  await library.saveChassis(sampleChassis('mule'), 0)
  acknowledged.set('(chassis)', [])
  for (let count = 1; count <= SAVES; count += 1) {
    const numbers = Array.from({ length: count }, (_, index) => index)
    const outcome = await library.saveSession(sampleSquat('mule', 'squat', numbers), count - 1)
    if (outcome.kind !== 'saved') throw new Error('a conflict where nobody else writes')
    acknowledged.set('squat', numbers)
  }
  await library.import(sampleExchange('guest', 2))
  acknowledged.set('(guest)', [])
  await library.saveSession(sampleSquat('mule', 'second', [7]), 0)
  acknowledged.set('second', [7])
  await library.removeSession('mule', 'second')
  acknowledged.delete('second')
  await library.list()
}

/** What is wrong with a library after its day was broken off; it is written to, as well. */
export async function verify(library: ProfileLibrary, acknowledged: Acknowledged): Promise<string[]> {
  const wrong: string[] = []
  const listed = await library.list()
  if (listed.unreadable.length > 0) wrong.push(`not readable: ${listed.unreadable.map((each) => each.file).join(', ')}`)
  const has = (id: string): boolean => listed.chassis.some((each) => each.id === id)
  if (acknowledged.has('(chassis)') && !has('mule')) return [...wrong, 'the chassis is gone']
  if (acknowledged.has('(guest)') && !has('guest')) wrong.push('the import is gone')
  if (has('guest') && (await library.open('guest')).sessions.length !== 2) wrong.push('the import is there in part')
  // A builder whose chassis was never acknowledged makes it again.
  if (!has('mule')) await library.saveChassis(sampleChassis('mule'), 0)
  const { sessions, unreadable } = await library.open('mule')
  wrong.push(...unreadable.map((each) => `not readable: ${each.file}`))
  for (const [id, numbers] of acknowledged) {
    if (id.startsWith('(')) continue
    const session = sessions.find((each) => each.id === id)
    // The removal of `second` may have happened although its answer was a failure.
    if (session === undefined && id === 'second') continue
    const there = session === undefined ? [] : numbersOf(session)
    if (numbers.some((number) => !there.includes(number))) wrong.push(`readings of ${id} are gone`)
  }
  const current = sessions.find((each) => each.id === 'squat')
  const saved = await library.saveSession(sampleSquat('mule', 'squat', [0, 1, 2, 3, 4]), current?.revision ?? 0)
  if (saved.kind !== 'saved') wrong.push('the library takes no more saves')
  return wrong
}

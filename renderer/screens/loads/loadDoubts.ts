/** Doubts about loads, by the load they are said at, as sentences with their figures. */
import type { WeightDoubt } from '@core/chassis'
import type { Weighing } from '@core/schema'

/** A sentence by its key under `loads.doubt`, with its figures, kg. */
interface Saying { readonly key: string; readonly kg: Readonly<Record<string, number>> }

export interface LoadDoubt {
  readonly says: readonly Saying[]
  /** Whether a weighing is one of those in doubt. */
  readonly marks: (weighing: Weighing) => boolean
}

/** Doubts of each load that has any. */
export function doubtsOfLoads(doubts: readonly WeightDoubt[]): Map<string, LoadDoubt[]> {
  const found = new Map<string, LoadDoubt[]>()
  for (const doubt of doubts) {
    if ('loadId' in doubt) found.set(doubt.loadId, [...(found.get(doubt.loadId) ?? []), loadDoubt(doubt)])
  }
  return found
}

function loadDoubt(doubt: Extract<WeightDoubt, { loadId: string }>): LoadDoubt {
  if (doubt.code === 'loadBeyondCar') return whole('beyondCar', { load: doubt.loadKg, car: doubt.carKg })
  if (doubt.code === 'loadBeyondOthers') return whole('beyondOthers', { load: doubt.loadKg, others: doubt.othersKg })
  const { oneKg: one, otherKg: other, swappedKg: swapped, weighingId } = doubt
  const apart: Saying = weighingId === null
    ? { key: 'disagree', kg: { one, other, difference: one - other } }
    : { key: 'apart', kg: { one, other } }
  return {
    says: [apart, swapped === null ? { key: 'weighAgain', kg: {} } : { key: 'swapped', kg: { one, swapped } }],
    marks: ({ id, massKg, setAside }) =>
      setAside === null && (weighingId === null ? massKg === one || massKg === other : id === weighingId),
  }
}

const whole = (key: string, kg: Saying['kg']): LoadDoubt =>
  ({ says: [{ key, kg }], marks: ({ setAside }) => setAside === null })

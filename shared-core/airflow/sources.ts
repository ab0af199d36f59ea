/** Sources of this room, by name. */
import { fromSource, type Source, type SourceGroup, type Uncertain } from '@core/uncertainty'

/** A source evaluated from knowledge. */
export const known = (id: string, group: SourceGroup, shape: Source['shape'] = 'normal'): Source =>
  ({ id, group, evaluation: 'fromKnowledge', shape, dof: Infinity })

/** A source evaluated from the scatter of data, Student's t with its degrees of freedom. */
export const fromData = (id: string, group: SourceGroup, dof: number, pool?: string): Source =>
  ({ id, group, evaluation: 'fromData', shape: 't', dof, ...(pool === undefined ? {} : { pool }) })

/** A value entered with its standard uncertainty. */
export const entered = ({ value, u }: { value: number; u: number }, id: string, group: SourceGroup): Uncertain =>
  fromSource(value, u, known(id, group))

/**
 * A short name for what two runs have in common when their entries are the same (FNV-1a, 32 bits
 * twice): a traverse copied from run to run is one measurement, not two.
 */
export function fingerprint(content: unknown): string {
  const text = JSON.stringify(content)
  return [0x811c9dc5, 0x9747b28c].map((start) => {
    let hash = start
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
    return (hash >>> 0).toString(36)
  }).join('')
}

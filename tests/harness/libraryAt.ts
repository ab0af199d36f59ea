/** A library in a folder of its own, with the door before it, for tests. */
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Answer, ServiceInput, ServiceName, ServiceOutput } from '@core/services'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import type { Disk } from '@electron/services/disk'
import type { LockOptions } from '@electron/services/lock'

export interface Opened {
  folder: string
  library: ProfileLibrary
  dispatch: ReturnType<typeof createDispatch>
  /** The answer of a service as the window gets it. */
  call<N extends ServiceName>(name: N, input: ServiceInput<N>): Promise<Answer<ServiceOutput<N>>>
  /** The value of a service; throws the answer's words where it failed. */
  value<N extends ServiceName>(name: N, input: ServiceInput<N>): Promise<ServiceOutput<N>>
}

/** Opens a library on a folder, with another disk, lock or patience where wished. */
export function libraryAt(
  folder: string, disk?: Disk, lock?: Partial<LockOptions>, renameWaitsMs?: readonly number[],
): Opened {
  let count = 0
  const library = new ProfileLibrary({
    folder, newId: () => `fresh-${(count += 1)}`, ...(disk && { disk }), ...(lock && { lock }), ...(renameWaitsMs && { renameWaitsMs }),
  })
  const dispatch = createDispatch(createTable({
    library, version: '0.0.0', transport: 'host', printPdf: null, saveTables: null,
  }))
  const call = async <N extends ServiceName>(name: N, input: ServiceInput<N>) =>
    await dispatch(name, input) as Answer<ServiceOutput<N>>
  return {
    folder,
    library,
    dispatch,
    call,
    value: async (name, input) => {
      const answer = await call(name, input)
      if (!answer.ok) throw new Error(`${name}: ${answer.error.code}: ${answer.error.message}`)
      return answer.value
    },
  }
}

/** Gives the work a folder that is gone afterwards. */
export async function withFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-'))
  try {
    return await work(folder)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

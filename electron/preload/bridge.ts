/** What the desktop window finds at `window.squatbench`: one call, nothing of Electron or Node. */
import type { Answer, ServiceInput, ServiceName, ServiceOutput } from '@core/services'

export interface Bridge {
  /** Calls a service of the table. */
  call<N extends ServiceName>(name: N, input: ServiceInput<N>): Promise<Answer<ServiceOutput<N>>>
}

/** The property of `window`. */
export const BRIDGE_NAME = 'squatbench'

/** What the desktop window finds at `window.squatbench`: two functions, nothing of Electron or Node. */
import type { Answer, PageCommand, ServiceInput, ServiceName, ServiceOutput } from '@core/services'

export interface Bridge {
  /** Calls a service of the table. */
  call<N extends ServiceName>(name: N, input: ServiceInput<N>): Promise<Answer<ServiceOutput<N>>>
  /** Hears what was chosen in the window's menu. */
  onCommand(hear: (command: PageCommand) => void): void
}

/** The property of `window`. */
export const BRIDGE_NAME = 'squatbench'

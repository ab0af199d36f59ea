/** Puts the bridge on the window. Runs sandboxed and isolated; the page can reach its two functions only. */
import { contextBridge, ipcRenderer } from 'electron'
import { COMMAND_CHANNEL, SERVICE_CHANNEL } from '@core/services/channel'
import type { PageCommand } from '@core/services/channel'
import { BRIDGE_NAME } from './bridge'
import type { Bridge } from './bridge'

const bridge: Bridge = {
  call: (name, input) => ipcRenderer.invoke(SERVICE_CHANNEL, name, input),
  onCommand: (hear) => {
    // The event stays here: it would hand the page a way to send on any channel.
    ipcRenderer.on(COMMAND_CHANNEL, (_event, command: PageCommand) => hear(command))
  },
}

contextBridge.exposeInMainWorld(BRIDGE_NAME, bridge)

/** Puts the bridge on the window. Runs sandboxed and isolated; the page can reach the one function only. */
import { contextBridge, ipcRenderer } from 'electron'
import { SERVICE_CHANNEL } from '@core/services/channel'
import { BRIDGE_NAME } from './bridge'
import type { Bridge } from './bridge'

const bridge: Bridge = { call: (name, input) => ipcRenderer.invoke(SERVICE_CHANNEL, name, input) }

contextBridge.exposeInMainWorld(BRIDGE_NAME, bridge)

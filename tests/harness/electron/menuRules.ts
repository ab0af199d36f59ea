/** What Electron takes for a menu. */
import type Electron from 'electron'
import { onlyOptions } from './strict'
import { ROLES } from './typings'

/** Roles that only macOS has (Electron's documentation of MenuItem; from memory). */
const MAC_ONLY = ['about', 'services', 'hide', 'hideOthers', 'unhide', 'zoom', 'front', 'appMenu']
const ACCELERATOR = /^(?:(?:CmdOrCtrl|Cmd|Ctrl|Alt|Shift)\+)+[A-Z]$/

/** Refuses what Electron would not build a menu of, or would build a dead item of. */
export function checkMenu(items: readonly Electron.MenuItemConstructorOptions[], platform: NodeJS.Platform): void {
  for (const item of items) {
    onlyOptions(item, 'MenuItemConstructorOptions')
    const { role, label, type, submenu, click, accelerator } = item
    if (type === 'separator') continue
    if (role === undefined && label === undefined) throw new Error('a menu item has a role or a label')
    if (role !== undefined && !ROLES.has(role)) throw new Error(`there is no role “${role}”`)
    if (platform !== 'darwin' && MAC_ONLY.includes(role ?? '')) throw new Error(`the role “${role}” is of macOS only`)
    if (accelerator !== undefined && !ACCELERATOR.test(String(accelerator))) {
      throw new Error(`no accelerator: ${String(accelerator)}`)
    }
    if (role === undefined && submenu === undefined && click === undefined) throw new Error(`“${label}” does nothing`)
    if (Array.isArray(submenu)) checkMenu(submenu, platform)
  }
}

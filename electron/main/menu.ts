/** A plain menu: what a window is expected to have, and no more. */
import { Menu } from 'electron'
import type { MenuItemConstructorOptions } from 'electron'
import { PAGE_KEYS, type PageCommand, type Press } from '@core/services'
import type { FrameWords } from './words'

/**
 * Sets the program's menu.
 * @param tell hands a command to the page: taking back and doing again are the page's, not a text field's
 */
export function setMenu({ menu }: FrameWords, tell: (command: PageCommand) => void): void {
  const mac = process.platform === 'darwin'
  const line: MenuItemConstructorOptions = { type: 'separator' }
  const item = (role: MenuItemConstructorOptions['role'], label: string): MenuItemConstructorOptions =>
    ({ ...(role && { role }), label })
  const command = (name: PageCommand, press: Press): MenuItemConstructorOptions =>
    ({ label: menu[name], accelerator: acceleratorOf(press), click: () => tell(name) })
  const own: MenuItemConstructorOptions = {
    label: 'Squatbench',
    submenu: [
      item('about', menu.about), line, item('services', menu.services), line,
      item('hide', menu.hide), item('hideOthers', menu.hideOthers), item('unhide', menu.unhide), line, item('quit', menu.quit),
    ],
  }
  Menu.setApplicationMenu(Menu.buildFromTemplate([
    ...(mac ? [own] : []),
    { label: menu.file, submenu: [mac ? item('close', menu.close) : item('quit', menu.quit)] },
    {
      label: menu.edit,
      submenu: [
        command('undo', PAGE_KEYS.undo[0]), command('redo', PAGE_KEYS.redo[mac ? 1 : 0]), line,
        item('cut', menu.cut), item('copy', menu.copy), item('paste', menu.paste), item('delete', menu.delete), line,
        item('selectAll', menu.selectAll),
      ],
    },
    {
      label: menu.view,
      submenu: [
        item('reload', menu.reload), line,
        item('resetZoom', menu.resetZoom), item('zoomIn', menu.zoomIn), item('zoomOut', menu.zoomOut), line,
        item('togglefullscreen', menu.fullscreen),
      ],
    },
    {
      label: menu.window,
      role: 'window',
      submenu: [
        item('minimize', menu.minimize),
        ...(mac ? [item('zoom', menu.zoom), line, item('front', menu.front)] : [item('close', menu.close)]),
      ],
    },
  ]))
}

const acceleratorOf = ({ key, mod, shift }: Press): string =>
  `${mod ? 'CmdOrCtrl+' : ''}${shift ? 'Shift+' : ''}${key.toUpperCase()}`

/** A plain menu: what a window is expected to have, and no more. */
import { Menu } from 'electron'

/** Sets the program's menu. */
export function setMenu(): void {
  const own = process.platform === 'darwin' ? [{ role: 'appMenu' as const }] : []
  Menu.setApplicationMenu(Menu.buildFromTemplate([
    ...own,
    { role: 'fileMenu' },
    { role: 'editMenu' },
    {
      label: 'View',
      submenu: [
        { role: 'reload' }, { type: 'separator' },
        { role: 'resetZoom' }, { role: 'zoomIn' }, { role: 'zoomOut' }, { type: 'separator' },
        { role: 'togglefullscreen' },
      ],
    },
    { role: 'windowMenu' },
  ]))
}

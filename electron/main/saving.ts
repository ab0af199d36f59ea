/** What the page offers for download goes to a place the builder picks. */
import { join } from 'node:path'
import { app } from 'electron'
import type { Session } from 'electron'

/** Shows the save dialog for each download, starting in the downloads folder. */
export function askWhereToSave(ses: Session): void {
  ses.on('will-download', (_event, item) => {
    item.setSaveDialogOptions({ defaultPath: join(app.getPath('downloads'), item.getFilename()) })
  })
}

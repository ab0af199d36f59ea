/** The desktop transport: one channel over the service table, for our own page only. */
import { ipcMain } from 'electron'
import type { IpcMainInvokeEvent } from 'electron'
import { SERVICE_CHANNEL } from '@core/services'
import type { Answer } from '@core/services'
import type { Dispatch } from '@electron/services'
import { isOwnAddress } from './pageScheme'

const REFUSED: Answer<never> = {
  ok: false, error: { code: 'refused', message: 'Only Squatbench’s own page may ask.', problems: [] },
}

/** Answers the channel from now on. */
export function answerChannel(dispatch: Dispatch): void {
  ipcMain.handle(SERVICE_CHANNEL, (event, name: unknown, input: unknown) =>
    (isOwnPage(event) ? dispatch(name, input) : REFUSED))
}

/** True for the top frame of a window that shows our page. */
function isOwnPage({ sender, senderFrame }: IpcMainInvokeEvent): boolean {
  return senderFrame !== null && senderFrame === sender.mainFrame && isOwnAddress(senderFrame.url)
}

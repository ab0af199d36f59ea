/** Puts many tables into one folder that the builder picks once. */
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { app, dialog } from 'electron'
import type { BaseWindow } from 'electron'
import type { ServiceInput, ServiceOutput } from '@core/services'
import { patient, ServiceFailure, systemDisk, writeWhole } from '@electron/services'
import { openWindowNow } from './appWindow'
import { words } from './look'

type Files = ServiceInput<'report.tables'>['files']

/** Where the tables were put last; the next question begins there. */
let lastFolder: string | null = null

/**
 * Asks for the folder, and before something in it is replaced.
 * @throws ServiceFailure where a table can't be written
 */
export async function saveTables({ files }: { files: Files }): Promise<ServiceOutput<'report.tables'>> {
  const window = openWindowNow()
  if (window === null) return { kind: 'cancelled' }
  const { tables } = words()
  const { canceled, filePaths } = await dialog.showOpenDialog(window, {
    title: tables.title, buttonLabel: tables.choose, defaultPath: lastFolder ?? app.getPath('downloads'),
    properties: ['openDirectory', 'createDirectory', 'promptToCreate'],
  })
  const folder = filePaths[0]
  if (canceled || folder === undefined) return { kind: 'cancelled' }
  if (!await mayReplace(window, folder, files)) return { kind: 'cancelled' }
  const disk = patient(systemDisk)
  try {
    for (const { fileName, text } of files) await writeWhole(disk, join(folder, fileName), text)
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : String(error)
    throw new ServiceFailure('failed', tables.failed(folder, why))
  }
  lastFolder = folder
  return { kind: 'saved', folder }
}

const REPLACE = 1

async function mayReplace(window: BaseWindow, folder: string, files: Files): Promise<boolean> {
  // Some systems know no difference of capitals in names.
  const there = new Set((await readdir(folder).catch(() => [])).map((name) => name.toLowerCase()))
  const taken = files.map(({ fileName }) => fileName).filter((name) => there.has(name.toLowerCase()))
  if (taken.length === 0) return true
  const { tables } = words()
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning', buttons: [tables.cancel, tables.go], defaultId: 0, cancelId: 0, noLink: true,
    message: tables.replace, detail: tables.replaceDetail(taken.join('\n')),
  })
  return response === REPLACE
}

/** Started as a process of its own: the host over a library folder, its address on the first line. Ends by a signal. */
import { randomUUID } from 'node:crypto'
import { startHost } from '@electron/host'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'

const [folder, pageFolder, port] = process.argv.slice(2)
if (folder === undefined || pageFolder === undefined) throw new Error('hostProcess LIBRARY PAGES [PORT]')

const library = new ProfileLibrary({ folder, newId: randomUUID })
const dispatch = createDispatch(createTable({ library, version: '0.0.0', transport: 'host', printPdf: null, saveTables: null }))
const host = await startHost({ dispatch, pageFolder, libraryId: library.id, port: Number(port ?? 0) })
console.log(host.address)

/** Prints a complete HTML document to PDF in a hidden window without scripts, bridge or network. */
import { BrowserWindow, session } from 'electron'
import { lockSession } from './lockdown'
import { KEPT_APART } from './appWindow'
import { PAGE_ADDRESS } from './pageScheme'

/** The report brings its own styles and pictures; it may do nothing else. */
const PRINT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:"

/** Not kept on the disk. */
const PARTITION = 'printing'

/** The PDF's bytes, A4 with the page sizes the document itself states taking precedence. */
export async function printPdf(html: string): Promise<Uint8Array> {
  const ses = session.fromPartition(PARTITION)
  lockSession(ses)
  const scheme = new URL(PAGE_ADDRESS).protocol.slice(0, -1)
  if (ses.protocol.isProtocolHandled(scheme)) ses.protocol.unhandle(scheme)
  ses.protocol.handle(scheme, () => new Response(html, {
    headers: { 'content-type': 'text/html; charset=utf-8', 'content-security-policy': PRINT_POLICY },
  }))
  const window = new BrowserWindow({
    show: false, webPreferences: { ...KEPT_APART, session: ses, javascript: false, devTools: false },
  })
  try {
    await window.loadURL(PAGE_ADDRESS)
    return await window.webContents.printToPDF({ pageSize: 'A4', printBackground: true, preferCSSPageSize: true })
  } finally {
    window.destroy()
  }
}

/** Prints one document after the other: they share the hidden page's address. */
export function inTurn(print: (html: string) => Promise<Uint8Array>): (html: string) => Promise<Uint8Array> {
  let last: Promise<unknown> = Promise.resolve()
  return (html) => {
    const turn = last.then(() => print(html))
    last = turn.catch(() => undefined)
    return turn
  }
}

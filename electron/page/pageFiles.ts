/** Finds a file of the built window by the path of an address, and never one outside of it. */
import { readFile, realpath, stat } from 'node:fs/promises'
import { extname, join, sep } from 'node:path'

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.webm': 'video/webm',
  '.mp4': 'video/mp4',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
}

export interface PageFile { type: string; content: Uint8Array<ArrayBuffer> }

/**
 * The file an address names, or null: where there is none, where it is not of a known type, and for
 * every path that leads out of the folder (dots, backslashes, percent signs, links).
 * @param folder the built window
 * @param path the address' path as sent, beginning with a slash, percent-encoded
 */
export async function pageFile(folder: string, path: string): Promise<PageFile | null> {
  const name = nameOf(path)
  if (name === null) return null
  const type = TYPES[extname(name).toLowerCase()]
  if (type === undefined) return null
  try {
    const root = await realpath(folder)
    const file = await realpath(join(root, name))
    if (!file.startsWith(root + sep) || !(await stat(file)).isFile()) return null
    return { type, content: new Uint8Array(await readFile(file)) }
  } catch {
    return null
  }
}

/** The decoded path below the folder; null for everything but plain names between slashes. */
function nameOf(path: string): string | null {
  let decoded: string
  try {
    decoded = decodeURIComponent(path)
  } catch {
    return null
  }
  if (decoded === '/') return 'index.html'
  const parts = decoded.slice(1).split('/')
  const plain = parts.every((part) => /^[\w-][\w.@ -]*$/.test(part))
  return decoded.startsWith('/') && plain ? parts.join('/') : null
}

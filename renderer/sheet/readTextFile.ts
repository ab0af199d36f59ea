/** Largest file that can be a table of readings typed by hand, bytes. */
const LARGEST = 20_000_000

/** The text of a file, in UTF-8 or in the Windows code page that spreadsheets still write; null where it is none. */
export async function readTextFile(file: File): Promise<string | null> {
  if (file.size > LARGEST) return null
  const bytes = await file.arrayBuffer()
  if (new Uint8Array(bytes).includes(0)) return null
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

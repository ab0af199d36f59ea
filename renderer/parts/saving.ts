/** A name that every system takes for a file, of what the builder typed. */
export const fileNameOf = (typed: string): string => typed.replace(/[^\p{L}\p{N} ._-]|^[ .-]/gu, '_')

/** Hands a file to the builder: the browser's download, the desktop's save dialog. */
export function saveText(content: Blob | string, fileName: string, type = 'text/plain'): void {
  const blob = typeof content === 'string' ? new Blob([content], { type }) : content
  const address = URL.createObjectURL(blob)
  const link = document.createElement('a')
  link.href = address
  link.download = fileNameOf(fileName)
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}

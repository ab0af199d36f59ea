/** Plain text tables. */
export type Row = readonly string[]

/** Columns as wide as their widest cell; nothing where there are no rows. */
export function table(title: string, head: Row, rows: readonly Row[]): string[] {
  if (rows.length === 0) return []
  const widths = head.map((_, column) => Math.max(...[head, ...rows].map((row) => [...(row[column] ?? '')].length)))
  const line = (row: Row): string => row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ').trimEnd()
  return [title, line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line), '']
}

/** One place of bench mode where something is read. */
export interface BenchCell {
  readonly key: string
  readonly label: string
  /** What was read, in the unit it is kept in; null where nothing was yet. */
  readonly kept: number | null
  readonly tone?: 'front' | 'rear'
  /** Beside the label: how far it went down. */
  readonly note?: string | undefined
  readonly doubt?: { readonly saidIn: string; readonly grave: boolean } | undefined
}

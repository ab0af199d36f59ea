/** What a robustness command found: one row of `docs/evidence/robustness.md`. */
export interface Figure {
  /** What was tried. */
  what: string
  /** What came out, in numbers. */
  figure: string
  /** Whether it is as it must be. */
  good: boolean
}

/** Shows the rows and sets the exit code: 1 where one is not as it must be. */
export function report(title: string, figures: Figure[]): void {
  console.log(`\n${title}`)
  for (const { what, figure, good } of figures) console.log(`${good ? 'ok  ' : 'FAIL'} ${what}: ${figure}`)
  if (figures.some((each) => !each.good)) process.exitCode = 1
}

/** A probability on paper. */
import type { Probability } from '@core/aero'
import type { Voice } from '../paper'

const NEARLY = 0.999

/** A probability, or its bound; never 0 or 100 %, which no reading can tell. */
export function probabilityText(paper: Voice, { kind, value }: Probability): string {
  if (kind === 'untold') return paper.say('untold')
  const share = Math.min(NEARLY, Math.max(1 - NEARLY, value))
  const text = paper.short(share, 'share')
  if (kind !== 'is') return paper.say(kind, { value: text })
  return share === value ? text : paper.say(value > share ? 'nearlyCertain' : 'hardlyPossible', { value: text })
}

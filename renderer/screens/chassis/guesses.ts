/** What a new car came with and nobody entered or confirmed yet. */
import type { Chassis, Guess } from '@core/schema'

/** True where a value still is as the new car came with it. */
export const isGuess = (car: Chassis, of: Guess): boolean => car.guesses?.includes(of) ?? false

/** In a draft: the builder entered these, or says that they are right. */
export function settle(draft: Chassis, of: readonly Guess[]): void {
  if (draft.guesses) draft.guesses = draft.guesses.filter((each) => !of.includes(each))
}

/** In a draft: what was added came with values that nobody entered. */
export function addGuess(draft: Chassis, of: Guess): void {
  if (!isGuess(draft, of)) draft.guesses = [...(draft.guesses ?? []), of]
}

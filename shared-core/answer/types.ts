/** The answer to "what presses hardest", as codes and figures: window, report and headless run say it in words. */
import type { Measure, Prediction, Probability } from '@core/aero'
import type { Axle } from '@core/schema'
import type { BudgetRow, Statement, Untold } from '@core/uncertainty'

/** The one speed that everything is told at. */
export interface AnswerSpeed {
  readonly speedMs: number
  /** `asked` by the builder; `round` where nobody asked: a round speed inside what all set-ups were read at. */
  readonly from: 'asked' | 'round'
}

/** How the best stands to the others. */
export interface Lead {
  /** `only`: there is no other. `untold`: one of the two is only a bound that leaves it open. */
  readonly kind: 'clear' | 'close' | 'untold' | 'only'
  /** The set-up it is compared with: the next of the order, or the first that it can't be told apart from. */
  readonly other: string | null
  /** How many others there are. */
  readonly othersCount: number
  /** All set-ups from which it can't be told apart. */
  readonly tiedWith: readonly string[]
  /** Load of the best less that of the other at the speed, N; null where an end of either car is down. */
  readonly byN: Statement | null
  readonly probability: Probability | null
}

/** Where the air's load lies against where the weight stands. */
export interface BalanceAnswer {
  readonly frontShare: Statement
  readonly staticFrontShare: Statement
  /** Front share of the air's load less that of the weight, as a share of one. */
  readonly shift: Statement
  /** What the axle loads alone make of it as the car gets faster. */
  readonly tendency: 'understeer' | 'oversteer' | 'keeps' | 'untold'
  /** True for a move of less than three percentage points. */
  readonly slight: boolean
}

export interface TouchAnswer {
  readonly kind: 'touches' | 'diverges' | 'never' | 'untold'
  /** The end that comes first; null where none does. */
  readonly axle: Axle | null
  /** Speed at which it comes down, or from which no height holds. */
  readonly speedMs: Statement
  /** True where it is down at the speed that was asked. */
  readonly down: boolean
}

/** What the load costs; each part null where nothing tells it. */
export interface CostAnswer {
  readonly dragN: Statement | null
  readonly loadPerDrag: Statement | null
  /** Drag of the best less that of the other at the speed, N. */
  readonly moreDragN: Statement | null
  /** Lap of the best less that of the other, s; below zero where the best is quicker. */
  readonly lap: { readonly course: string; readonly lapS: Statement } | null
}

export interface Answer {
  readonly speed: AnswerSpeed
  readonly configurationId: string
  readonly measure: Measure
  /** What the best does at the speed. */
  readonly at: Prediction
  readonly lead: Lead
  /** Null where an end is down at the speed: the ground carries a part then. */
  readonly balance: BalanceAnswer | null
  readonly touch: TouchAnswer
  readonly cost: CostAnswer
  /** The largest part of the load's uncertainty, as a share of its variance; null where it is only a bound. */
  readonly doubt: BudgetRow | null
  /** How well the speed of the air itself is known: half of its 95 % interval over the speed. */
  readonly airSpeedHalf: number | null
  /** Why nothing at all can be told of the load; null where it can. */
  readonly untold: Untold | null
}

/** What was asked on this screen, kept while the car is open; another car begins anew. */
import type { RankQuestion } from '@core/analysis'
import type { Axle } from '@core/schema'
import { reactive } from 'vue'

export interface DecideQuestions {
  /** Set-ups compared, the first less the second; empty until chosen. */
  first: string
  second: string
  /** Difference of ClA worth finding, m^2. */
  wishedM2: number | null
  /** Set-up looked at by itself; empty until chosen. */
  setUp: string
  /** What the set-ups are put in order by; the corner's radius, m; the course, the first until chosen. */
  rankBy: 'downforce' | RankQuestion['by']
  radiusM: number | null
  courseId: string
  /** Null until chosen: then the end that touches first. */
  axle: Axle | null
  clearanceMm: number | null
  holdAtMs: number | null
}

let kept: { readonly chassisId: string; readonly questions: DecideQuestions } | null = null

export function questionsOf(chassisId: string): DecideQuestions {
  if (kept?.chassisId !== chassisId) {
    kept = {
      chassisId, questions: reactive<DecideQuestions>({
        first: '', second: '', wishedM2: null, setUp: '', axle: null, clearanceMm: 1, holdAtMs: 20,
        rankBy: 'downforce', radiusM: 6, courseId: '',
      }),
    }
  }
  return kept.questions
}

/** What a field says while it is typed in: answered at once, kept only when it is entered. */
import { computed, ref, type ComputedRef, type Ref } from 'vue'

/** `typing`: keys still come, or what stands there can't be read; `read`: a value; `done`: entered or taken back. */
export type Draft =
  | { readonly state: 'typing' | 'done' }
  | { readonly state: 'read'; readonly kept: number | null }

export interface LiveValue {
  hear(draft: Draft): void
  /** What is being typed, else what is kept. */
  readonly value: ComputedRef<number | null>
  /** The answer that stands is the one before. */
  readonly stale: Ref<boolean>
}

/** A value that follows its field while it is typed in. */
export function useLiveValue(kept: () => number | null): LiveValue {
  const tried = ref<{ readonly kept: number | null } | null>(null)
  const stale = ref(false)
  return {
    hear(draft) {
      stale.value = draft.state === 'typing'
      if (draft.state === 'read') tried.value = { kept: draft.kept }
      if (draft.state === 'done') tried.value = null
    },
    value: computed(() => (tried.value ? tried.value.kept : kept())),
    stale,
  }
}

/** The steps that can be taken back and done again. */
import type { Session } from '@core/schema'
import { shallowRef, type ShallowRef } from 'vue'
import type { Document } from './documents'

/** A document changed, a session made, or one taken out. */
export type Change =
  | { readonly kind: 'edit'; readonly before: Document; readonly after: Document; readonly label: string }
  | { readonly kind: 'add' | 'remove'; readonly session: Session; readonly label: string }
  | Together

/** Changes of several documents that were one deed of the builder, in their order. */
export interface Together { readonly kind: 'together'; readonly changes: readonly Change[]; readonly label: string }

/** How a step is taken: the same three deeds serve both directions. */
export interface Deeds {
  /** Moves a document from one of its states to another, under whatever was changed since. */
  shift(from: Document, to: Document): void
  /** Puts a session back that was taken out. */
  putBack(session: Session): void
  takeOut(sessionId: string): Promise<boolean>
}

const DEPTH = 200

export function historyOf({ shift, putBack, takeOut }: Deeds) {
  const undoable = shallowRef<readonly Change[]>([])
  const redoable = shallowRef<readonly Change[]>([])

  async function move(
    from: ShallowRef<readonly Change[]>, to: ShallowRef<readonly Change[]>, forward: boolean,
  ): Promise<Change | null> {
    const change = from.value.at(-1)
    if (!change) return null
    from.value = from.value.slice(0, -1)
    to.value = [...to.value, change]
    await step(change, forward)
    return change
  }

  async function step(change: Change, forward: boolean): Promise<void> {
    if (change.kind === 'together') {
      for (const each of forward ? change.changes : [...change.changes].reverse()) await step(each, forward)
    } else if (change.kind === 'edit' && forward) shift(change.before, change.after)
    else if (change.kind === 'edit') shift(change.after, change.before)
    else if ((change.kind === 'add') === forward) putBack(change.session)
    else await takeOut(change.session.id)
  }

  return {
    undoable, redoable,
    remember(change: Change) {
      undoable.value = [...undoable.value.slice(-DEPTH + 1), change]
      redoable.value = []
    },
    /** Makes one step of all that is remembered while a deed runs. */
    together(label: string, deed: () => void) {
      const before = undoable.value
      undoable.value = []
      deed()
      const changes = undoable.value
      undoable.value = before
      if (changes.length > 0) this.remember({ kind: 'together', changes, label })
    },
    forget() {
      undoable.value = []
      redoable.value = []
    },
    /** Takes the last change back; gives it, or null where there is none. */
    undo: () => move(undoable, redoable, false),
    /** Does the last change taken back again. */
    redo: () => move(redoable, undoable, true),
  }
}

/** Where the table is reached: the one channel (desktop) and the one path prefix (loopback host). */
export const SERVICE_CHANNEL = 'squatbench:service'
export const SERVICE_PATH = '/service/'

/** The header by which a window says which library it was opened on; another one at the same address refuses it. */
export const LIBRARY_HEADER = 'x-squatbench-library'

/** The desktop's other channel, from the frame to the page: what was chosen in the menu. */
export const COMMAND_CHANNEL = 'squatbench:command'

/** What is pressed: a key as a browser names it, with Ctrl (the command key on a Mac) or Shift held. */
export interface Press {
  readonly key: string
  readonly mod?: true
  readonly shift?: true
}

/** The keys of what the frame can have the page do, the usual one first. */
export const PAGE_KEYS = {
  undo: [{ key: 'z', mod: true }],
  redo: [{ key: 'y', mod: true }, { key: 'z', mod: true, shift: true }],
} as const satisfies Record<string, readonly Press[]>
export type PageCommand = keyof typeof PAGE_KEYS

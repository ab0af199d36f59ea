/** Where the table is reached: the one channel (desktop) and the one path prefix (loopback host). */
export const SERVICE_CHANNEL = 'squatbench:service'
export const SERVICE_PATH = '/service/'

/** The header by which a window says which library it was opened on; another one at the same address refuses it. */
export const LIBRARY_HEADER = 'x-squatbench-library'

/** The desktop's other channel, from the frame to the page: what was chosen in the menu. */
export const COMMAND_CHANNEL = 'squatbench:command'
export type PageCommand = 'undo' | 'redo'

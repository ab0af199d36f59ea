/** English, complete: one file for each room. */
import { parts } from './parts'
import { shell } from './shell'

export const en = { shell, parts }

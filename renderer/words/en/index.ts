/** English, complete: one file for each room. */
import { chassis } from './chassis'
import { library } from './library'
import { loads } from './loads'
import { parts } from './parts'
import { shell } from './shell'

export const en = { shell, parts, library, chassis, loads }

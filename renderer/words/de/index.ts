/** German, a file for each room. The report, its remarks, the camera and the log are still told in English. */
import { airflow } from './airflow'
import { chassis } from './chassis'
import { curve } from './curve'
import { decide } from './decide'
import { help } from './help'
import { library } from './library'
import { load } from './load'
import { loads } from './loads'
import { parts } from './parts'
import { preferences } from './preferences'
import { report } from './report'
import { shell } from './shell'
import { squat } from './squat'
import { track } from './track'

export const de = {
  airflow, chassis, curve, decide, help, library, load, loads, parts, preferences, report, shell, squat, track,
}

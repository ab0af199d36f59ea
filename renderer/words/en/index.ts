/** English, complete: one file for each room. */
import { airflow } from './airflow'
import { camera } from './camera'
import { chassis } from './chassis'
import { curve } from './curve'
import { decide } from './decide'
import { drag } from './drag'
import { help } from './help'
import { library } from './library'
import { live } from './live'
import { load } from './load'
import { loads } from './loads'
import { log } from './log'
import { parts } from './parts'
import { preferences } from './preferences'
import { remarks } from './remarks'
import { report } from './report'
import { shell } from './shell'
import { squat } from './squat'
import { track } from './track'

export const en = {
  airflow, camera, chassis, curve, decide, drag, help, library, live, load, loads, log, parts, preferences, remarks,
  report, shell, squat, track,
}

/** German, complete: one file for each room. */
import { airflow } from './airflow'
import { balance } from './balance'
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
import { overview } from './overview'
import { parts } from './parts'
import { plan } from './plan'
import { preferences } from './preferences'
import { remarks } from './remarks'
import { report } from './report'
import { sensor } from './sensor'
import { sheet } from './sheet'
import { shell } from './shell'
import { squat } from './squat'
import { track } from './track'

export const de = {
  airflow, balance, camera, chassis, curve, decide, drag, help, library, live, load, loads, log, overview, parts, plan,
  preferences, remarks, report, sensor, sheet, shell, squat, track,
}

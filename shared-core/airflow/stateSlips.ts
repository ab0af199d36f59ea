/**
 * Readings of a run's states that can't be: slips of the pen, found by medians before any load is made
 * of them, as in the squat test. Without this one slip widens the drop so far that it looks as if the
 * tray might have touched.
 */
import { judgedHeight, USUAL_TIMES, type ImplausibleReading } from '@core/calibration'
import { axleOf } from '@core/chassis'
import { CORNERS, type AirRun, type Chassis, type Corner, type Gauge, type Reading } from '@core/schema'
import { median } from '@core/uncertainty'

interface Cell { readonly reading: Reading; readonly corner: Corner; readonly on: boolean }

/** Heights in mm; `stepId` is the state. Empty where there is too little to tell. */
export function stateSlips(run: AirRun, chassis: Chassis, gauge: Gauge): ImplausibleReading[] {
  const sign = gauge.reads === 'height' ? -1 : 1
  const used = run.states.filter(({ setAside }) => setAside === null)
  const states = new Map(used.map((each) => [each.id, each.air === 'on']))
  const cells = run.readings.flatMap((reading): Cell[] => {
    const on = states.get(reading.stepId)
    return on === undefined || reading.setAside !== null ? [] : [{ reading, corner: reading.corner, on }]
  })
  const zeros = zerosOf(cells, gauge)
  const dropOf = ({ reading, corner }: Cell): number => sign * (reading.shownMm - zeros[corner]!)
  const told = cells.filter(({ corner }) => zeros[corner] !== undefined)
  const blown = told.filter(({ on }) => on)
  const usualMm = USUAL_TIMES * median(blown.map((cell) => Math.abs(dropOf(cell))))
  /** Of the same corner where it was read oftener, else of its axle, else of the car. */
  const expected = (cell: Cell): number => {
    const others = blown.filter((each) => each !== cell)
    const same = [
      others.filter(({ corner }) => corner === cell.corner),
      others.filter(({ corner }) => axleOf(corner) === axleOf(cell.corner)),
    ].find((each) => each.length >= 2)
    return median((same ?? others).map(dropOf))
  }
  return told.filter(({ reading }) => reading.keptAt === undefined).flatMap((cell) => {
    const { reading, corner } = cell
    const found = judgedHeight({
      shownMm: reading.shownMm, zeroMm: zeros[corner]!, expectedDropMm: cell.on ? expected(cell) : 0, usualMm, sign,
      touchMm: cell.on ? chassis.trayTouchMm[axleOf(corner)]?.value ?? null : null, resolutionMm: gauge.resolutionMm,
    })
    return found ? [{ reading, ...found }] : []
  })
}

/** The reading at rest that lies nearest to the middle of all of its corner's. */
function zerosOf(cells: readonly Cell[], gauge: Gauge): Partial<Record<Corner, number>> {
  return Object.fromEntries(CORNERS.flatMap((corner) => {
    const own = cells.filter((cell) => cell.corner === corner)
    const middle = median(own.map(({ reading }) => reading.shownMm))
    const atRest = own.filter(({ on }) => !on).map(({ reading }) => reading.shownMm)
    if (atRest.length === 0) return gauge.reads === 'drop' ? [[corner, 0]] : []
    return [[corner, atRest.reduce((best, each) => (Math.abs(each - middle) < Math.abs(best - middle) ? each : best))]]
  }))
}

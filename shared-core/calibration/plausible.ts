/**
 * Readings that can't be: a slipped decimal point, a digit too many, a figure from another field. They
 * are found before anything is fitted, by medians that such a reading can't move, so that one slip
 * does not take the curve away. They are left out until they are read again or kept on purpose.
 */
import { axleOf } from '@core/chassis'
import { CORNERS, type Axle, type Chassis, type Corner, type Gauge, type Reading, type SquatSession } from '@core/schema'
import { median } from '@core/uncertainty'
import { stepForces, type StepForces } from './history'

export interface ImplausibleReading {
  readonly reading: Reading
  /** What the other readings let expect there, as the gauge would show it. */
  readonly expectedMm: number
  /** The same digits with the decimal point moved, where that fits; else null. */
  readonly suggestedMm: number | null
}

interface Cell {
  readonly reading: Reading
  readonly corner: Corner
  /** Force on the corner, N; null where a load has no mass. */
  readonly forceN: number | null
  readonly isZero: boolean
}

/** Slack for friction, preload and a load laid aside, mm: less than this is for the fit to judge. */
const SLACK_MM = 1
/** A drop is believed up to this many times the usual one, or half again what its force lets expect. */
export const USUAL_TIMES = 3
const FORCE_TIMES = 1.5
/** A tray's clearance can be exceeded by tyre squash and flex, but not by this factor. */
const CLEARANCE_TIMES = 1.5
/** Where a moved point fits this much better, less than the whole slack is enough. */
const SLIP_SHARE = 0.6
/** A drop this share off what its load lets expect, and the slack, still fits it. */
const FIT_SHARE = 0.25
const SLIPS = [0.1, 10, 0.01, 100, -1]

/**
 * The readings of a session that can't be; empty where there is too little to tell. Heights in mm.
 *
 * @param forces of the steps, where they are worked out already
 */
export function implausibleReadings(
  session: SquatSession, chassis: Chassis, gauge: Gauge,
  forces: readonly StepForces[] = stepForces(session, chassis).steps,
): ImplausibleReading[] {
  const sign = gauge.reads === 'height' ? -1 : 1
  const cells = cellsOf(session, forces)
  const loaded = cells.filter(({ isZero }) => !isZero)
  const firstZeros = firstZerosOf(cells, gauge)
  const rates = ratesOf(loaded, firstZeros, sign)
  const usualOf = usualDrops(loaded, firstZeros, sign)
  const expectedDrop = (cell: Cell): number | null => {
    const { corner, forceN, isZero } = cell
    const rate = rates[axleOf(corner)]
    if (isZero || forceN === null) return 0
    if (rate) return forceN / rate
    const usualMm = usualOf(cell)
    return usualMm === null ? null : usualMm / USUAL_TIMES
  }
  const judge = (cell: Cell, zeroMm: number): ImplausibleReading | null => judged(cell, zeroMm, expectedDrop(cell), {
    sign, gauge, touchMm: chassis.trayTouchMm[axleOf(cell.corner)]?.value ?? null,
    // Nothing else was read: a height may fall to nothing, no further; a drop may be any.
    usualMm: usualOf(cell) ?? (sign < 0 && zeroMm > 0 ? zeroMm : Infinity),
  })
  return CORNERS.flatMap((corner) => {
    const own = cells.filter((cell) => cell.corner === corner)
    const candidates = own.filter(({ isZero }) => isZero).map(({ reading }) => reading.shownMm)
    if (gauge.reads === 'drop' && candidates.length === 0) candidates.push(0)
    if (candidates.length === 0) return []
    const off = (zero: number) => median(own.filter(({ isZero }) => !isZero)
      .map((cell) => Math.abs(sign * (cell.reading.shownMm - zero) - (expectedDrop(cell) ?? 0))))
    const zero = candidates.reduce((best, each) => (off(each) < off(best) ? each : best))
    const found = own.flatMap((cell) => judge(cell, zero) ?? [])
    const drops = own.filter(({ isZero }) => !isZero)
    const strays = drops.filter(({ reading }) => found.some((each) => each.reading === reading))
    if (strays.length < 2 || strays.length <= drops.length / 2) return found
    // Most readings stray alike: then it is the zero that slipped.
    const real = median(drops.map((cell) => cell.reading.shownMm - sign * (expectedDrop(cell) ?? 0)))
    return own.filter(({ isZero }) => isZero).flatMap((cell) => judge(cell, real) ?? [])
  }).filter(({ reading }) => reading.keptAt === undefined)
}

function judged(
  { reading }: Cell, zeroMm: number, expectedDropMm: number | null,
  { sign, usualMm, touchMm, gauge }: { sign: number; usualMm: number; touchMm: number | null; gauge: Gauge },
): ImplausibleReading | null {
  const found = judgedHeight({
    shownMm: reading.shownMm, zeroMm, expectedDropMm, usualMm, touchMm, sign, resolutionMm: gauge.resolutionMm,
  })
  return found && { reading, ...found }
}

/** One height against what the others let expect of it. */
export interface JudgedHeight {
  readonly shownMm: number
  /** What the gauge shows with no drop. */
  readonly zeroMm: number
  /** Null where nothing else was read: then any drop up to the usual one may be. */
  readonly expectedDropMm: number | null
  /** A drop that the session's others make usual; a stray up to it is for the fit to judge. */
  readonly usualMm: number
  /** Drop at which the tray touches; null where it is not known. */
  readonly touchMm: number | null
  /** Drop for a step of the gauge: -1 where it reads heights, 1 where it reads drops. */
  readonly sign: number
  readonly resolutionMm: number
}

/** Null for a height that may be; else what was expected, and the same digits with the point moved if that fits. */
export function judgedHeight(
  { shownMm, zeroMm, expectedDropMm, usualMm, touchMm, sign, resolutionMm }: JudgedHeight,
): Pick<ImplausibleReading, 'expectedMm' | 'suggestedMm'> | null {
  const expected = expectedDropMm ?? 0
  const dropOf = (shown: number) => sign * (shown - zeroMm)
  const offOf = (shown: number) => Math.abs(dropOf(shown) - expected)
  const off = offOf(shownMm)
  const limit = SLACK_MM + Math.max(usualMm, FORCE_TIMES * Math.abs(expected))
  // Past the tray's room, and not where its load lets expect it: one that fits was read with the tray off.
  const beyondTray = touchMm !== null && off > SLACK_MM + FIT_SHARE * Math.abs(expected)
    && dropOf(shownMm) > deepest(touchMm)
  const near = expectedDropMm === null ? usualMm : SLACK_MM / 2 + Math.abs(expected) / 2
  const slip = SLIPS.map((factor) => shownMm * factor)
    .find((each) => (sign > 0 || each >= 0) && offOf(each) < Math.min(near, off / 4))
  if (!(off > limit || beyondTray || (slip !== undefined && off > SLIP_SHARE * limit))) return null
  const decimals = Math.max(0, Math.ceil(-Math.log10(resolutionMm)))
  return {
    expectedMm: zeroMm + sign * expected,
    suggestedMm: slip === undefined ? null : Number(slip.toFixed(decimals)),
  }
}

/** The deepest an axle is believed to go over a tray with this much room, mm. */
export const deepest = (touchMm: number): number => CLEARANCE_TIMES * touchMm + SLACK_MM

/** So few readings that each would make a good part of the median it is judged by. */
const FEW = 8

/** The usual drop by the readings other than one's own, mm, times `USUAL_TIMES`; null without any. */
function usualDrops(
  loaded: readonly Cell[], zeros: Partial<Record<Corner, number>>, sign: number,
): (cell: Cell) => number | null {
  const drops = loaded.flatMap((cell) => {
    const zeroMm = zeros[cell.corner]
    if (zeroMm === undefined) return []
    const dropMm = Math.abs(cell.reading.shownMm - zeroMm)
    // A height can fall to nothing, no further.
    return [{ cell, dropMm: sign < 0 && zeroMm > 0 ? Math.min(dropMm, zeroMm) : dropMm }]
  })
  const of = (some: typeof drops) => (some.length > 0 ? USUAL_TIMES * median(some.map(({ dropMm }) => dropMm)) : null)
  const all = of(drops)
  return (own) => (drops.length > FEW ? all : of(drops.filter(({ cell }) => cell !== own)))
}

function cellsOf(session: SquatSession, forces: readonly StepForces[]): Cell[] {
  const steps = new Map(forces.map((each) => [each.step.id, each]))
  return session.readings.flatMap((reading): Cell[] => {
    const at = steps.get(reading.stepId)
    if (!at || reading.setAside !== null || at.step.setAside !== null) return []
    return [{
      reading, corner: reading.corner, forceN: at.forces?.corners[reading.corner].value ?? null,
      isZero: at.step.branch === 'zero' && at.step.placed.length === 0,
    }]
  })
}

function firstZerosOf(cells: readonly Cell[], gauge: Gauge): Partial<Record<Corner, number>> {
  return Object.fromEntries(CORNERS.flatMap((corner) => {
    const first = cells.find((cell) => cell.isZero && cell.corner === corner)
    if (first) return [[corner, first.reading.shownMm]]
    return gauge.reads === 'drop' ? [[corner, 0]] : []
  }))
}

/** Force over drop of a corner of each axle, N/mm, by the median; null where nothing tells it. */
function ratesOf(
  loaded: readonly Cell[], zeros: Partial<Record<Corner, number>>, sign: number,
): Record<Axle, number | null> {
  const of = (axle: Axle): number | null => {
    const rates = loaded.flatMap(({ corner, forceN, reading }) => {
      const zero = zeros[corner]
      if (axleOf(corner) !== axle || zero === undefined || forceN === null || !(forceN > 0)) return []
      const drop = sign * (reading.shownMm - zero)
      return drop > 0 ? [forceN / drop] : []
    })
    return rates.length >= 4 ? median(rates) : null
  }
  return { front: of('front'), rear: of('rear') }
}

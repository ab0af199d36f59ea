/** What a squat session shows about itself, apart from any curve: zeros, twist, cross-talk, sides, scale. */
import { cornersOf, scaleGain, stationWeights } from '@core/chassis'
import { aboutReading, remark, type Remark } from '@core/remark'
import { AXLES, CORNERS, type Axle, type Corner } from '@core/schema'
import {
  BEYOND_CHANCE, CALLS_FOR_ACTION, minus, normalQuantile, standardUncertainty, TWIST_CHANCE, type Uncertain,
} from '@core/uncertainty'
import { deepest, type ImplausibleReading } from '../plausible'
import type { SquatData, StepDrops } from '../points'

/** Remarks about the session as a whole. */
export function sessionRemarks(data: SquatData): Remark[] {
  return [
    ...implausibleRemarks(data), ...loadRemarks(data),
    ...scaleRemarks(data), ...zeroRemarks(data), ...twistRemarks(data), ...crossTalkRemarks(data),
    ...sideRemarks(data),
    ...trayRemarks(data),
    ...(data.chassis.place ? [] : [remark('standardGravity')]),
  ]
}

const implausibleRemarks = ({ implausible }: SquatData): Remark[] => implausible.map(implausibleRemark)

/** Readings that fit their loads and go deeper than the tray lets them: it was off, or its room is wrong. */
const trayRemarks = ({ chassis, steps }: SquatData): Remark[] => AXLES.flatMap((axle) => {
  const touchMm = chassis.trayTouchMm[axle]?.value
  if (touchMm === undefined) return []
  const drops = steps.flatMap(({ step, axles }) => (step.setAside === null ? axles[axle]?.value ?? [] : []))
  const deepestMm = Math.max(0, ...drops)
  return deepestMm > deepest(touchMm) ? [remark('deeperThanTray', { axle, deepestMm, touchMm })] : []
})

/** What is said of a reading that can't be, at its step or state and corner. */
export const implausibleRemark = (
  { reading, expectedMm, suggestedMm }: ImplausibleReading,
): Remark => {
  const { shownMm } = reading
  return suggestedMm === null
    ? remark('readingImplausible', { shownMm, expectedMm }, aboutReading(reading))
    : remark('readingSlipped', { shownMm, expectedMm, suggestedMm }, aboutReading(reading))
}

const loadRemarks = ({ unweighed, chassis }: SquatData): Remark[] => unweighed.map(({ loadId, stepId }) => {
  const load = chassis.loads.find(({ id }) => id === loadId)?.name ?? loadId
  return remark('loadWithoutMass', { load }, { kind: 'step', stepId })
})

function scaleRemarks({ chassis, session }: SquatData): Remark[] {
  const loads = new Set(session.steps.flatMap(({ placed }) => placed.map(({ loadId }) => loadId)))
  const used = new Set(chassis.loads.filter(({ id }) => loads.has(id))
    .flatMap(({ weighings }) => weighings.map(({ scaleId }) => scaleId)))
  return chassis.scales.filter(({ id }) => used.has(id)).flatMap((scale) => {
    const { from, pValue } = scaleGain(scale)
    if (from === 'assumed') return [remark('scaleUnchecked', { scale: scale.name, gainU: scale.gainU })]
    return pValue < CALLS_FOR_ACTION ? [remark('scaleChecksDisagree', { scale: scale.name, pValue })] : []
  })
}

/** Zeros: unread ones, and those that did not come back. */
function zeroRemarks({ zeros, gauge, session }: SquatData): Remark[] {
  if (session.readings.length === 0) return []
  const loaded = session.steps.findIndex(({ placed }) => placed.length > 0)
  /** Unsettled, a zero after the first load does not count: friction holds the car off it. */
  const late = (corner: Corner) => loaded >= 0 && session.readings.some((each) => each.corner === corner
    && each.setAside === null
    && session.steps.findIndex(({ id, placed }) => id === each.stepId && placed.length === 0) > loaded)
  return CORNERS.flatMap((corner) => {
    const zero = zeros[corner]
    if (!zero) {
      const read = session.readings.some((each) => each.corner === corner && each.setAside === null)
      return read && gauge.reads === 'height' ? [remark(late(corner) ? 'zeroOnlyAfter' : 'zeroNotRead', null, { kind: 'corner', corner })] : []
    }
    const { wander } = zero
    if (!wander || Math.abs(wander.valueMm) <= BEYOND_CHANCE * wander.uMm) return []
    const values = { offMm: wander.valueMm, uMm: wander.uMm, sigma: wander.valueMm / wander.uMm }
    return [remark(zero.followed ? 'zeroFollowed' : 'zeroMoved', values, { kind: 'corner', corner })]
  })
}

const counts = ({ step, forces }: StepDrops): boolean => step.setAside === null && forces !== null

/** Share of the steps beyond chance that makes it the chassis rather than one misread. */
const OFTEN = 0.3

/** A plane through four corners leaves nothing over, unless one was misread or the chassis flexes. */
function twistRemarks({ steps, chassis }: SquatData): Remark[] {
  const beyond = steps.filter(counts).flatMap(({ step, twistMm }) => {
    if (!twistMm) return []
    const u = standardUncertainty(twistMm)
    return u > 0 ? [{ stepId: step.id, twistMm: twistMm.value, u, sigma: twistMm.value / u }] : []
  })
  // Among many steps some one is far off by chance alone.
  const limit = Math.max(BEYOND_CHANCE, normalQuantile(1 - TWIST_CHANCE / (2 * Math.max(1, beyond.length))))
  const far = beyond.filter(({ sigma }) => Math.abs(sigma) > limit)
  const worst = far.reduce((most, each) => (Math.abs(each.sigma) > Math.abs(most.sigma) ? each : most), far[0]!)
  if (!worst) return []
  const often = far.length > 2 && far.length > OFTEN * beyond.length
  const values = { offMm: worst.twistMm, uMm: worst.u, sigma: worst.sigma, steps: far.length }
  const level = stationWeights(chassis, CORNERS).twist !== null
  return level ? [remark(often ? 'chassisTwists' : 'twist', values, { kind: 'step', stepId: worst.stepId })] : []
}

/** Share of the largest force on an axle below which it counts as not loaded. */
const UNLOADED = 0.02

/** A load on one axle line must not move the other beyond its uncertainty. */
function crossTalkRemarks({ steps }: SquatData): Remark[] {
  return AXLES.flatMap((axle) => {
    const other: Axle = axle === 'front' ? 'rear' : 'front'
    const top = Math.max(...steps.map(({ forces }) => Math.abs(forces?.axles[other].value ?? 0)), 0)
    const moved = steps.filter(counts).flatMap(({ step, index, forces, axles }) => {
      const drop = axles[axle]
      const own = forces!.axles[axle]
      const apart = forces!.axles[other].value > 0.2 * top && Math.abs(own.value) < UNLOADED * top
      // Once it was loaded, friction may hold it down.
      const loadedBefore = steps.slice(0, index).some((each) =>
        Math.abs(each.forces?.axles[axle].value ?? 0) >= UNLOADED * top)
      if (!drop || !apart || loadedBefore) return []
      const u = standardUncertainty(drop)
      return Math.abs(drop.value) > BEYOND_CHANCE * u
        ? [{ stepId: step.id, offMm: drop.value, uMm: u, sigma: drop.value / u }] : []
    })
    const worst = moved.sort((a, b) => Math.abs(b.sigma) - Math.abs(a.sigma))[0]
    if (!worst) return []
    const { stepId, ...values } = worst
    return [remark('crossTalk', { axle, ...values }, { kind: 'step', stepId })]
  })
}

/** Loads left and right of an axle that differ by less than this share count as even. */
const EVEN = 0.1

/** Left against right under even loads, at the largest such load: a soft corner, or a gauge at fault. */
function sideRemarks({ steps }: SquatData): Remark[] {
  return AXLES.flatMap((axle) => {
    const [left, right] = cornersOf(axle)
    let best: { difference: Uncertain; forceN: number; stepId: string } | null = null
    for (const { step, forces, corners } of steps.filter(counts)) {
      const forceN = forces!.axles[axle].value
      const uneven = Math.abs(forces!.corners[left].value - forces!.corners[right].value)
      const one = corners[left]
      const other = corners[right]
      if (!one || !other || !(forceN > 0) || uneven > EVEN * forceN || step.touched[axle]) continue
      if (!best || forceN > best.forceN) best = { difference: minus(one, other), forceN, stepId: step.id }
    }
    if (!best) return []
    const u = standardUncertainty(best.difference)
    if (!(Math.abs(best.difference.value) > BEYOND_CHANCE * u)) return []
    return [remark('sidesDiffer', {
      axle, offMm: best.difference.value, uMm: u, sigma: best.difference.value / u, forceN: best.forceN,
    }, { kind: 'step', stepId: best.stepId })]
  })
}

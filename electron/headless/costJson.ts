/** What downforce costs and what it is worth, as JSON. README describes the shape. */
import type { CostResult } from '@core/analysis'
import type { CourseResult } from '@core/course'
import type { CoastsRead } from '@core/drag'
import { intervalStatement } from '@core/uncertainty'
import type { Results } from './results'
import { statementJson } from './words'

export function costJson(costs: CostResult): unknown {
  const { coasts, dragFrom, setups, pairs, lines, lineSetups, gripMs2, powerW, courses } = costs
  return {
    coasts: coasts.map(coastsJson), dragFrom,
    configurations: setups.map(({ configurationId, cdaM2, loadPerDrag }) => ({
      configurationId, cda: statementJson(cdaM2.statement, 'M2'), loadPerDrag: loadPerDrag && statementJson(loadPerDrag, ''),
    })),
    differences: pairs.map(({ configurationA, configurationB, cdaM2, loadPerDrag }) => ({
      configurationA, configurationB, cda: statementJson(cdaM2.statement, 'M2'),
      loadPerDrag: loadPerDrag && statementJson(loadPerDrag, ''),
    })),
    lines: lines.map((each) => ({
      sessionId: each.sessionId, runId: each.runId, configurationId: each.configurationId, control: each.control,
      untold: each.untold, drag: each.dragN && statementJson(each.dragN.statement, 'N'),
      cda: each.cdaM2 && statementJson(each.cdaM2.statement, 'M2'),
      deviceCda: each.deviceM2 && statementJson(each.deviceM2.statement, 'M2'), controlRunIds: each.controlRunIds,
      rollingFrom: each.rollingFrom, takenOffFront: each.pitchN.front && statementJson(each.pitchN.front.statement, 'N'),
      takenOffRear: each.pitchN.rear && statementJson(each.pitchN.rear.statement, 'N'),
    })),
    lineConfigurations: lineSetups.map(({ configurationId, runIds, cdaM2, deviceM2 }) => ({
      configurationId, runIds, cda: statementJson(cdaM2.statement, 'M2'),
      deviceCda: deviceM2 && statementJson(deviceM2.statement, 'M2'),
    })),
    grip: gripMs2 && statementJson(intervalStatement(gripMs2), 'Ms2'),
    power: powerW && statementJson(intervalStatement(powerW), 'W'),
    courses: courses.map(({ courseId, name, wanting, result }) =>
      ({ courseId, name, wanting, ...(result && courseJson(result)) })),
  }
}

function coastsJson(read: CoastsRead) {
  const { fit } = read
  return {
    sessionId: read.sessionId, untold: read.untold, unreadRunIds: read.unreadRunIds, oneWay: read.oneWay,
    motorTurned: read.motorTurned,
    rollingShare: read.rollingShare && statementJson(read.rollingShare.statement, ''),
    wind: read.windMs && statementJson(read.windMs.statement, 'Ms'), gustMs: fit?.gustMs ?? null,
    coasts: (fit?.coasts ?? []).map(({ id, startMs, endMs, scatter }) => ({ runId: id, startMs, endMs, scatter })),
    wouldPart: read.wouldPart,
  }
}

const courseJson = ({ lengthM, outcomes, differences }: CourseResult) => ({
  lengthM,
  configurations: outcomes.map((each) => ({
    configurationId: each.configurationId, lap: statementJson(each.lapS, 'S'),
    topSpeed: statementJson(each.topSpeedMs, 'Ms'), launch: statementJson(each.launchS, 'S'),
    segmentsS: each.segmentsS, leastMs: each.leastMs, mostMs: each.mostMs, pastTouchDown: each.pastTouchDown,
  })),
  differences: differences.map((each) => ({
    configurationA: each.configurationA, configurationB: each.configurationB, lap: statementJson(each.lapS, 'S'),
    probabilityQuicker: each.probabilityQuicker, topSpeed: statementJson(each.topSpeedMs, 'Ms'),
    launch: statementJson(each.launchS, 'S'), segmentsS: each.segmentsS, breakEvenW: each.breakEvenW,
  })),
})

const RANK_UNIT = { loadPerDrag: '', corner: 'Ms2', lap: 'S' } as const

/** The set-ups in the order that was asked for, the best first. */
export const rankJson = ({ question, list }: NonNullable<Results['ranking']>) => ({
  ...question, configurations: list.map(({ configurationId, said, tiedWith }) =>
    ({ configurationId, value: statementJson(said, RANK_UNIT[question.by]), tiedWith })),
})

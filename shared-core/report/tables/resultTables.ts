/** The results in SI units (drops in mm, ClA in m2). Bounds keep their words in a column of their own. */
import type { Analysis } from '@core/analysis'
import { AXLES, type Exchange } from '@core/schema'
import { intervalStatement, standardUncertainty } from '@core/uncertainty'
import type { CsvCell, CsvTable } from './csv'
import { statementCells, statementHeads, toldCells } from './statementCells'

const namer = ({ chassis }: Exchange) => {
  const names = new Map(chassis.configurations.map(({ id, name }) => [id, name]))
  return (id: string): string => names.get(id) ?? id
}

/** Parameters of every fitted shape. */
export function curvesTable({ squats }: Analysis): CsvTable {
  const rows = squats.flatMap((squat) => AXLES.flatMap((axle) => {
    const curve = squat.axles[axle]
    return curve.candidates.flatMap((each): CsvCell[][] => (each.fitted
      ? [...each.parameters, { name: 'frictionN', estimate: each.frictionN }].map(({ name, estimate }) => [
        squat.name, axle, each.shape, !curve.refused && each.shape === curve.chosen ? 'yes' : 'no', each.weight,
        each.chiSquare, each.dof, name, estimate.value, standardUncertainty(estimate),
      ]) : []))
  }))
  return {
    fileName: 'curves.csv', rows,
    heads: ['session', 'axle', 'shape', 'chosen', 'weight', 'chi-square', 'dof', 'parameter (unit in name)', 'value', 'u'],
  }
}

/** Load of each run and axle. */
export function runsTable(exchange: Exchange, { airflows }: Analysis): CsvTable {
  const nameOf = namer(exchange)
  return {
    fileName: 'runs.csv',
    heads: [
      'run', 'set-up', 'kind', 'control', 'axle', 'air speed/(m/s)', 'air speed u/(m/s)', 'dynamic pressure/Pa',
      'dynamic pressure u/Pa', 'density/(kg/m3)', 'drop/mm', 'drop u/mm', ...statementHeads('load as read', 'N'),
      ...statementHeads('load less control', 'N'),
    ],
    rows: airflows.flatMap(({ runs }) => runs.flatMap((run) => AXLES.map((axle): CsvCell[] => {
      const { totalDropMm, grossN, netN } = run.axles[axle]
      const speed = run.flow?.speedMs
      const pressure = run.flow?.dynamicPressurePa
      return [
        run.name, nameOf(run.configurationId), run.kind, run.control ? 'yes' : 'no', axle, speed?.value ?? null,
        speed ? standardUncertainty(speed) : null, pressure?.value ?? null,
        pressure ? standardUncertainty(pressure) : null,
        run.air.densityKgM3.value, totalDropMm?.value ?? null, totalDropMm ? standardUncertainty(totalDropMm) : null,
        ...toldCells(grossN), ...toldCells(netN),
      ]
    }))),
  }
}

/** ClA, balance and touch-down of each set-up. */
export function setUpsTable({ configurations }: Analysis): CsvTable {
  return {
    fileName: 'set-ups.csv',
    heads: [
      'set-up', ...statementHeads('ClA front', 'm2'), ...statementHeads('ClA rear', 'm2'), ...statementHeads('ClA', 'm2'),
      ...statementHeads('front share', '1'), ...statementHeads('centre of pressure', 'mm'),
      ...statementHeads('first touches at', '(m/s)'),
    ],
    rows: configurations.map(({ name, aero, touchDowns }) => [
      name, ...AXLES.flatMap((axle) => toldCells(aero.axles[axle].claM2)), ...toldCells(aero.total.claM2),
      ...statementCells(aero.balance.frontShare), ...statementCells(aero.balance.centreMm),
      ...(touchDowns ? statementCells(touchDowns.firstMs) : [null, null, null, null, null, null]),
    ]),
  }
}

/** Loads at the chosen speeds. */
export function predictionsTable({ configurations }: Analysis): CsvTable {
  return {
    fileName: 'predictions.csv',
    heads: [
      'set-up', 'speed/(m/s)', 'density/(kg/m3)', ...statementHeads('front', 'N'), ...statementHeads('rear', 'N'),
      ...statementHeads('whole car', 'N'), ...statementHeads('share of weight', '1'),
      ...statementHeads('clearance front', 'mm'), ...statementHeads('clearance rear', 'mm'),
    ],
    rows: configurations.flatMap(({ name, predictions }) => predictions.map((each): CsvCell[] => [
      name, each.speedMs, each.densityKgM3, ...AXLES.flatMap((axle) => statementCells(each.forceN[axle])),
      ...statementCells(each.totalN), ...statementCells(each.weightShare),
      ...AXLES.flatMap((axle) => statementCells(each.clearanceMm[axle])),
    ])),
  }
}

/** Every pair of set-ups. */
export function comparisonsTable(exchange: Exchange, { matrix }: Analysis): CsvTable {
  const nameOf = namer(exchange)
  return {
    fileName: 'comparisons.csv',
    heads: [
      'first', 'second', ...statementHeads('front', 'm2'), ...statementHeads('rear', 'm2'), ...statementHeads('whole car', 'm2'),
      'probability first has more', 'probability says', 'p after Holm', 'told apart', 'smallest detectable/m2',
    ],
    rows: (matrix?.cells ?? []).map(({ comparison, holmP, distinct }): CsvCell[] => [
      nameOf(comparison.configurationA), nameOf(comparison.configurationB),
      ...AXLES.flatMap((axle) => toldCells(comparison.axles[axle].differenceM2)),
      ...toldCells(comparison.total.differenceM2),
      comparison.total.probabilityLarger.kind === 'untold' ? null : comparison.total.probabilityLarger.value,
      comparison.total.probabilityLarger.kind, holmP, distinct ? 'yes' : 'no', comparison.smallestDetectableM2,
    ]),
  }
}

/** Levels of each track run. */
export function trackLevelsTable(exchange: Exchange, { tracks }: Analysis): CsvTable {
  const nameOf = namer(exchange)
  return {
    fileName: 'track-levels.csv',
    heads: [
      'run', 'set-up', 'manoeuvre', 'order', 'repeats', 'scatter/(m/s2)', ...statementHeads('level', '(m/s2)'), 'speed/(m/s)',
      'speed u/(m/s)',
    ],
    rows: tracks.flatMap(({ groups }) => groups.flatMap(({ runs }) => runs.map((run): CsvCell[] => [
      run.name, nameOf(run.configurationId), run.manoeuvre, run.order, run.repeats.filter((each) => each.used).length,
      run.scatterMs2, ...statementCells(run.statement), run.speedMs?.value ?? null,
      run.speedMs ? standardUncertainty(run.speedMs) : null,
    ]))),
  }
}

/** Gains on the track beside those the bench lets expect. */
export function trackGainsTable(exchange: Exchange, { tracks }: Analysis): CsvTable {
  const nameOf = namer(exchange)
  return {
    fileName: 'track-gains.csv',
    heads: [
      'before', 'after', 'manoeuvre', 'drift taken out', ...statementHeads('gain', '1'),
      ...statementHeads('expected by the bench', '1'), 'normalised error', 'verdict',
    ],
    rows: tracks.flatMap(({ groups }) => groups.flatMap(({ comparisons }) => comparisons.map((each): CsvCell[] => [
      nameOf(each.beforeId), nameOf(each.afterId), each.manoeuvre, each.driftRemoved ? 'yes' : 'no', ...toldCells(each.gain),
      ...(each.agreement ? toldCells(each.agreement.expected.total) : [null, null, null, null, null, null]),
      each.agreement?.normalisedError ?? null, each.agreement?.verdict ?? '',
    ]))),
  }
}

/** The car at rest. */
export function staticTable({ staticFrontShare, gravityMs2, gravityFrom }: Analysis): CsvTable {
  return {
    fileName: 'constants.csv', heads: ['what', ...statementHeads('quantity', 'as named')],
    rows: [
      [`gravity (${gravityFrom}), m/s2`, ...statementCells(intervalStatement(gravityMs2))],
      ...(staticFrontShare ? [['front share standing', ...statementCells(intervalStatement(staticFrontShare))]] : []),
    ],
  }
}

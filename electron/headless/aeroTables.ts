/** The tables of the set-ups: speed law, balance, load and height at a speed, springs, comparisons. */
import type { RepeatsNeeded, SpeedLaw } from '@core/aero'
import { namesOf, PAIR, predicted, PREDICTION, SET_UP } from '@core/report'
import { AXLES, type Axle } from '@core/schema'
import { formatQuantity } from '@core/units'
import type { Results } from './results'
import { resultTable, share, table, type Texts } from './textTable'
import { plainStatement, statementText } from './words'

const EXPONENT = { agrees: 'goes with V²', above: 'steeper than V²', below: 'flatter than V²', untold: "can't be told" } as const
const STATE = { free: '', touching: 'on the ground', unstable: 'no height holds', untold: "can't be told" } as const

/** Every so many of the heights worked out are listed; JSON has them all. */
const EVERY_HEIGHT = 5

const area = (m2: number | null): string => (m2 === null ? '-' : formatQuantity(m2, 'squareCentimetre', { u: m2 / 20 }).text)

/** Set-ups by themselves. */
export function setUpTables({ exchange, analysis: { configurations: all } }: Results): string[] {
  const names = namesOf(exchange)
  const { name, claFront, claRear, cla, frontShare, shift, centre } = SET_UP
  const { setUp, speed, front, rear, total, weightShare } = PREDICTION
  return [
    ...resultTable('Set-ups: ClA', [name, claFront, claRear, cla, frontShare], all, names),
    ...table('Speed law: load goes with V to the power of', ['set-up', 'load', 'exponent', 'verdict', 'points', 'air speeds', 'ClA by drop'],
      all.flatMap(({ name, aero }) => [...AXLES.map((axle) => lawRow(name, axle, aero.axles[axle])), lawRow(name, 'whole car', aero.total)])),
    ...resultTable('Balance', [name, frontShare, shift, centre], all, names),
    ...resultTable('At speed', [setUp, speed, front, rear, total, weightShare], predicted(all), names),
  ]
}

function lawRow(name: string, load: string, { exponent, points, lowMs, highMs, height }: SpeedLaw): Texts {
  const used = points.filter(({ weight }) => weight > 0)
  return [
    name, load, plainStatement(exponent.exponent), EXPONENT[exponent.verdict], String(used.length),
    used.length === 0 ? '-' : used.length === 1 ? `${lowMs.toFixed(1)} m/s` : `${lowMs.toFixed(1)} to ${highMs.toFixed(1)} m/s`,
    height ? `${(height.slopeM2PerMm.value * 1e4).toPrecision(3)} cm² per mm` : '-',
  ]
}

/** Room under the tray: against speed, where it ends, and which spring keeps it. */
export function heightTables({ exchange, analysis, springs, wishes }: Results): string[] {
  const springName = (id: string, axle: Axle): string => {
    const spring = exchange.chassis.springs.find((each) => each.id === id)
    return spring ? `${spring.name}${spring.fitted && spring.axle === axle ? ' (fitted)' : ''}` : id
  }
  const answers = analysis.configurations.flatMap(({ configurationId, name }) => AXLES.flatMap((axle) => {
    const answer = springs[configurationId]?.[axle]
    return answer ? [{ name, axle, answer }] : []
  }))
  const at = `${wishes.holdMm} mm at ${wishes.holdAtMs} m/s`
  return [
    ...table('Room under the tray against speed', ['set-up', 'speed', 'front', 'rear'], analysis.configurations.flatMap(({ name, heights }) =>
      heights.filter((_, index) => index % EVERY_HEIGHT === 0).map(({ speedMs, clearanceMm, state }): Texts => [
        name, `${speedMs.toFixed(1)} m/s`,
        ...AXLES.map((axle) => [statementText(clearanceMm[axle], 'millimetre'), STATE[state[axle]]].filter((each) => each !== '').join(', ')),
      ]))),
    ...table('Touches the ground at', ['set-up', 'front', 'rear', 'first', 'front end first'], analysis.configurations.map(({ name, touchDowns }) => [
      name, ...AXLES.map((axle) => {
        const { kind, speedMs, divergesMs } = touchDowns.axles[axle]
        if (kind === 'touches') return statementText(speedMs, 'metrePerSecond')
        return kind === 'diverges' && divergesMs !== null ? `no height holds from ${divergesMs.toFixed(1)} m/s` : kind
      }), statementText(touchDowns.firstMs, 'metrePerSecond'), touchDowns.frontFirst === null ? '-' : share(touchDowns.frontFirst),
    ])),
    ...table(`Wheel rate that holds ${at}`, ['set-up', 'axle', 'each wheel needed', 'each wheel now', 'whole axle needed', 'whole axle now'], answers.map(({ name, axle, answer: { needed } }) => [
      name, axle, statementText(needed.wheelRateNPerMm, 'newtonPerMillimetre'), statementText(needed.presentWheelRateNPerMm, 'newtonPerMillimetre'),
      statementText(needed.axleRateNPerMm, 'newtonPerMillimetre'), statementText(needed.presentRateNPerMm, 'newtonPerMillimetre'),
    ])),
    ...table(`Springs at hand, asked to hold ${at}: the measured curve by their rate over the fitted one's, collars set to the same ride height`, ['set-up', 'axle', 'spring', 'each wheel', 'room left', 'touches at', 'holds it'],
      answers.flatMap(({ name, axle, answer }) => answer.springs.map((each) => [
        name, axle, springName(each.springId, axle), statementText(each.wheelRateNPerMm, 'newtonPerMillimetre'),
        statementText(each.clearanceMm, 'millimetre'), statementText(each.touchDownMs, 'metrePerSecond'),
        each.probabilityHolds === null ? "can't be told" : share(each.probabilityHolds),
      ]))),
  ]
}

/** Set-ups against each other. */
export function comparisonTables({ exchange, analysis: { matrix }, wishes, repeats }: Results): string[] {
  if (!matrix) return []
  const names = namesOf(exchange)
  const { nameOf } = names
  const { first, second, total, pHolm, apart, chance, balanceMove } = PAIR
  return [
    ...table('Set-ups, most downforce first', ['place', 'set-up', 'ClA', 'not told apart from'], matrix.ranked.map((row) => [
      String(row.rank), nameOf(row.configurationId), statementText(row.totalClaM2.statement, 'squareCentimetre'),
      row.tiedWith.map(nameOf).join(', ') || '-',
    ])),
    ...resultTable('Comparisons: ClA of the whole car, first less second', [first, second, total, pHolm, apart, chance, balanceMove],
      matrix.cells, names),
    ...table('What this bench can find, 8 times of 10 at 95 %', ['first', 'second', 'smallest difference', ...(wishes.findM2 === null ? [] : [`runs needed for ${area(wishes.findM2)}`])],
      matrix.cells.map(({ comparison }) => [
        nameOf(comparison.configurationA), nameOf(comparison.configurationB), area(comparison.smallestDetectableM2),
        ...[repeats(comparison)].flatMap((needed) => (needed ? [repeatsText(needed)] : [])),
      ])),
    ...(matrix.pairCount > 1 ? [`p is Holm's over ${matrix.pairCount} pairs, so that many comparisons do not find a winner by chance.`, ''] : []),
  ]
}

function repeatsText(needed: RepeatsNeeded): string {
  switch (needed.kind) {
    case 'times': return needed.factor === 1 ? 'the present ones do' : `${needed.factor.toFixed(1)} times the present ones`
    case 'outOfReach': return `out of reach: ${area(needed.leastM2)} at best`
    case 'untold': return "can't be told"
  }
}

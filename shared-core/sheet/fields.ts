/** What a column of a table of readings may hold, by the words that people and our own tables write above it. */
import { CORNERS } from '../schema'
import { symbolOf, typedSymbols, unitsOf, type Quantity, type Unit } from '../units'

export const SHEET_KINDS = ['squat', 'air', 'traverse', 'laps', 'loads'] as const
/** What a table of readings is about. */
export type SheetKind = (typeof SHEET_KINDS)[number]

export const SHEET_FIELDS = [
  ...CORNERS, 'corner', 'shown', 'readAt', 'readingAside', 'session', 'step', 'branch', 'ramp', 'load', 'x', 'y',
  'touchedFront', 'touchedRear', 'stepAside', 'run', 'setUp', 'runKind', 'control', 'air', 'stateAt', 'pointY', 'pointZ',
  'weight', 'speed', 'order', 'radius', 'lap', 'level', 'levelU', 'name', 'mass', 'scale', 'ignored',
] as const
export type SheetField = (typeof SHEET_FIELDS)[number]

interface FieldSpec {
  /** Heads in plain small letters and digits, without unit. */
  readonly heads: readonly string[]
  readonly quantity: Quantity | null
  /** Several columns may hold it. */
  readonly many?: boolean
}

const field = (quantity: Quantity | null, heads: string, many = false): FieldSpec =>
  ({ heads: heads.split(' '), quantity, many })

export const FIELDS: Readonly<Record<SheetField, FieldSpec>> = {
  frontLeft: field('length', 'frontleft fl leftfront lf vornelinks vl linksvorne'),
  frontRight: field('length', 'frontright fr rightfront rf vornerechts vr rechtsvorne'),
  rearLeft: field('length', 'rearleft rl leftrear lr hintenlinks hl linkshinten'),
  rearRight: field('length', 'rearright rr rightrear hintenrechts hr rechtshinten'),
  corner: field(null, 'corner ecke wheel rad'),
  shown: field('length', 'shown height reading rideheight hohe ablesung wert'),
  readAt: field(null, 'readat weighedat abgelesenam zeitpunkt'),
  readingAside: field(null, 'setasidewhy setaside beiseitegelegtwarum'),
  session: field(null, 'session sitzung messreihe'),
  step: field(null, 'step no nr number state stufe schritt nummer stateno'),
  branch: field(null, 'branch direction richtung ast updown aufab'),
  ramp: field(null, 'ramp rampe'),
  load: field('mass', 'load loads loadsatxy last lasten belastung beladung gewicht bag bags beutel mass masse'),
  /** A number, or one of the words for the axles and the middle between them. */
  x: field('length', 'x xbehindfrontaxle placex ortx xhintervorderachse place ort platz lage where wo'),
  y: field('length', 'y ytotheright placey orty ynachrechts'),
  touchedFront: field(null, 'touchedfront touchesf touchesfront beruhrtvorne aufgesetztvorne'),
  touchedRear: field(null, 'touchedrear touchesr touchesrear beruhrthinten aufgesetzthinten'),
  stepAside: field(null, 'stepsetasidewhy statesetasidewhy'),
  run: field(null, 'run fahrt lauf versuch'),
  setUp: field(null, 'setup configuration variante aufbau abstimmung konfiguration'),
  runKind: field(null, 'kind art'),
  control: field(null, 'control controlrun kontrolllauf kontrolle'),
  air: field(null, 'air onoff luft zustand anaus'),
  stateAt: field('time', 'stateat time at zeit'),
  pointY: field('length', 'y acrossthejet quer'),
  pointZ: field('length', 'z up hoch'),
  weight: field('number', 'weight share gewicht anteil area flache'),
  speed: field('speed', 'speed v shown airspeed geschwindigkeit windgeschwindigkeit anzeige', true),
  order: field('number', 'order reihenfolge platzimtag'),
  radius: field('distance', 'radius r'),
  lap: field('time', 'lap laptime laps time runde rundenzeit runden zeit t', true),
  level: field('acceleration', 'level lateral querbeschleunigung niveau'),
  levelU: field('acceleration', 'levelu'),
  name: field(null, 'load name bag last beutel bezeichnung'),
  mass: field('mass', 'mass shownmass weighing weight masse gewicht wagung', true),
  scale: field(null, 'scale waage'),
  ignored: field(null, 'from correctedtimes repeat note notiz bemerkung'),
}

const READING: readonly SheetField[] = [...CORNERS, 'corner', 'shown', 'readAt', 'readingAside', 'session']
const ENDS: readonly SheetField[] = ['touchedFront', 'touchedRear', 'stepAside']

/** The fields that a kind of table may have, in the order in which a head is looked up. */
export const FIELDS_OF: Readonly<Record<SheetKind, readonly SheetField[]>> = {
  squat: [...READING, 'step', 'branch', 'ramp', 'load', 'x', 'y', ...ENDS, 'ignored'],
  air: [...READING, 'run', 'setUp', 'runKind', 'control', 'step', 'air', 'stateAt', ...ENDS, 'ignored'],
  traverse: ['session', 'run', 'pointY', 'pointZ', 'weight', 'speed', 'ignored'],
  laps: ['session', 'order', 'run', 'setUp', 'runKind', 'radius', 'lap', 'level', 'levelU', 'readingAside', 'ignored'],
  loads: ['name', 'mass', 'scale', 'readAt', 'readingAside', 'ignored'],
}

/** A column's field with the unit of its numbers, where its head names one. */
export interface SheetColumn {
  readonly field: SheetField
  readonly unit: Unit | null
}

const plainHead = (head: string): string =>
  head.normalize('NFKD').toLowerCase().replace(/ß/g, 'ss').replace(/[^\p{L}\p{N}]/gu, '').replace(/\d+$/, '')

/** A head without the unit that stands at its end: `front left [mm]`, `load (g)`, `shown/(m/s)`, `lap time, s`. */
function partsOf(head: string): { name: string; unit: string } {
  const found = /^(.*?)\s*(?:\/\s*\(([^()]+)\)|\[([^\]]+)\]|\(([^()]+)\)|[/,]\s*([^\s/,()[\]]+(?:\/[^\s/,()[\]]+)?))\s*$/.exec(head)
  if (!found?.[1]) return { name: head, unit: '' }
  return { name: found[1], unit: (found[2] ?? found[3] ?? found[4] ?? found[5] ?? '').trim() }
}

function unitNamed(text: string, quantity: Quantity | null): Unit | null {
  const all = quantity === null ? [] : unitsOf(quantity)
  return all.find((each) => symbolOf(each) === text)
    ?? all.find((each) => symbolOf(each).toLowerCase() === text.toLowerCase()
      || typedSymbols(each).includes(text.toLowerCase())) ?? null
}

/** What a head stands for among the fields of a kind; null where it is none of its words. */
export function columnOf(kind: SheetKind, head: string): SheetColumn | null {
  const fieldNamed = (name: string) => {
    const plain = plainHead(name)
    return FIELDS_OF[kind].find((each) => FIELDS[each].heads.includes(plain))
  }
  const { name, unit } = partsOf(head)
  const found = fieldNamed(name) ?? fieldNamed(head)
  if (found) return { field: found, unit: unitNamed(unit, FIELDS[found].quantity) }
  // A unit may stand behind the name without any sign: `load g`.
  const [, bare = '', last = ''] = /^(.*\S)\s+(\S+)$/.exec(head) ?? []
  const withUnit = fieldNamed(bare)
  const own = withUnit && unitNamed(last, FIELDS[withUnit].quantity)
  return own ? { field: withUnit, unit: own } : null
}

/** True where several columns may hold a field. */
export const mayRepeat = (of: SheetField): boolean => FIELDS[of].many === true || of === 'ignored'

/** What the numbers of a field measure; null where it holds words. */
export const quantityOfField = (of: SheetField): Quantity | null => FIELDS[of].quantity

/**
 * Twelve kinds of log as phones and loggers write them, each a small file of our own, from one short
 * drive. `npx tsx tests/worlds/logs/write.ts` makes the files again.
 */
import { zipSync, strToU8 } from 'fflate'
import { CALM, drive, type Driven } from './drive'

const RATE_HZ = 25
const G = 9.80665
const DRIVE = { ...CALM, rateHz: RATE_HZ, lengthS: 8, restS: 3, vibrationMs2: 0.4, seed: 12 }

export interface Kind {
  readonly name: string
  readonly bytes: Uint8Array
}

const driven: Driven = drive(DRIVE)
const rows = <T>(make: (at: { i: number; t: number; x: number; y: number; z: number; v: number }) => T): T[] =>
  Array.from(driven.timeS, (t, i) =>
    make({ i, t, x: driven.x[i]!, y: driven.y[i]!, z: driven.z[i]!, v: driven.speedMs[i]! }))
const text = (name: string, lines: readonly string[]): Kind => ({ name, bytes: strToU8(`${lines.join('\n')}\n`) })
const two = (value: number): string => String(value).padStart(2, '0')
/** A clock time of day, from 11:41:50 on. */
const clock = (t: number, mark: string, digits: number): string => {
  const s = 50 + t
  const whole = Math.floor(s + 1e-9)
  const fraction = digits === 0 ? '' : mark + Math.round((s - whole) * 10 ** digits).toString().padStart(digits, '0')
  return `11:${two(41 + Math.floor(whole / 60))}:${two(whole % 60)}${fraction}`
}
const comma = (value: number, digits: number): string => value.toFixed(digits).replace('.', ',')

/** A blank line under the units row. */
const blankUnderUnits = text('blank-under-units.csv', [
  'Lap export', 'Session,7', '', 'Time,Lateral,Longitudinal,Speed', 's,g,g,km/h', '',
  ...rows(({ t, x, y, v }) => `${t.toFixed(3)},${(y / G).toFixed(4)},${(x / G).toFixed(4)},${(v * 3.6).toFixed(2)}`),
])

/** Three header rows: names, units, where each value comes from; the time repeats now and then. */
const threeHeads = text('three-heads.csv', [
  'Format: 3', 'Date: 2031-05-04', '', 'timestamp,lateral_acc,longitudinal_acc,speed', 'unix time,g,g,km/h', ',100: gps,100: gps,100: gps',
  ...rows(({ i, t, x, y, v }) =>
    `${(1935653000 + (i % 40 === 39 ? t - 1 / RATE_HZ : t)).toFixed(3)},${(y / G).toFixed(3)},${(x / G).toFixed(3)},${(v * 3.6).toFixed(2)}`),
])

/** A phone's plain names in an order of its own, nanoseconds since 1970 beside seconds elapsed. */
const plainZyx = text('plain-zyx.csv', [
  'time,seconds_elapsed,z,y,x',
  ...rows(({ t, x, y, z }) => `${1935653000000000000n + BigInt(Math.round(t * 1e9))},${t.toFixed(6)},${z.toFixed(6)},${y.toFixed(6)},${x.toFixed(6)}`),
])

/** g by name, semicolons, decimal commas and a colon before the fraction of the second. */
const colonFraction = text('colon-fraction.csv', [
  'time;gFx;gFy;gFz',
  ...rows(({ t, x, y, z }) => `${clock(t, ':', 4)};${comma(x / G, 4)};${comma(y / G, 4)};${comma(z / G, 4)}`),
])

/** A comma before the fraction, quoted, between commas. */
const commaFraction = text('comma-fraction.csv', [
  '"Uhrzeit","acc x (m/s²)","acc y (m/s²)","acc z (m/s²)"',
  ...rows(({ t, x, y, z }) => `"${clock(t, ',', 3)}","${comma(x, 3)}","${comma(y, 3)}","${comma(z, 3)}"`),
])

/** Dated stamps of whole seconds, beside them nothing better. */
const wholeSeconds = text('whole-seconds.csv', [
  'timestamp,x,y,z',
  ...rows(({ t, x, y, z }) => `04/05/2031 ${clock(t, '', 0)},${x.toFixed(4)},${y.toFixed(4)},${z.toFixed(4)}`),
])

/** Millimetres per second squared, whole numbers, milliseconds. */
const millimetres = text('millimetres.csv', [
  'ms,accX,accY,accZ',
  ...rows(({ t, x, y, z }) => `${Math.round(t * 1000)},${Math.round(x * 1000)},${Math.round(y * 1000)},${Math.round(z * 1000)}`),
])

/** Counts of a converter with 16384 to a g, microseconds. */
const counts = text('counts.csv', [
  'micros,ax,ay,az',
  ...rows(({ t, x, y, z }) => `${Math.round(t * 1e6)},${[x, y, z].map((each) => Math.round((each / G) * 16_384)).join(',')}`),
])

/** A phone's dated stamps with its nanoseconds since it was switched on. */
const uptime = text('uptime-nanos.csv', [
  'timestamp,uptimeNanos,x,y,z',
  ...rows(({ t, x, y, z }) => `04/05/2031 ${clock(t, '', 0)},${6_120_000_000_000 + Math.round(t * 1e9)},${x.toFixed(5)},${y.toFixed(5)},${z.toFixed(5)}`),
])

/** No time at all; the rate stands in a comment. */
const noTime = text('no-time.csv', [
  '# board 3', `# data_rate = ${RATE_HZ}.0 Hz`, 'acc_x[mg]\tacc_y[mg]\tacc_z[mg]',
  ...rows(({ x, y, z }) => [x, y, z].map((each) => ((each / G) * 1000).toFixed(1)).join('\t')),
])

/** German names in the code of old spreadsheets. */
const windows1252: Kind = {
  name: 'windows-1252.csv',
  bytes: Uint8Array.from([
    'Zeit (s);Beschleunigung längs (m/s²);Beschleunigung quer (m/s²);Beschleunigung hoch (m/s²)',
    ...rows(({ t, x, y, z }) => `${comma(t, 3)};${comma(x, 4)};${comma(y, 4)};${comma(z, 4)}`), '',
  ].join('\n'), (sign) => sign.charCodeAt(0)),
}

/** A phone's zip: the log that matters among others. */
const zipped: Kind = {
  name: 'phone.zip',
  bytes: zipSync({
    'Gyroscope.csv': strToU8('"Time (s)","Gyroscope x (rad/s)"\n0,0\n0.04,0\n'),
    'meta/device.csv': strToU8('property,value\nversion,1\n'),
    'Accelerometer.csv': strToU8(['"Time (s)","Acceleration x (m/s^2)","Acceleration y (m/s^2)","Acceleration z (m/s^2)"',
      ...rows(({ t, x, y, z }) => [t, x, y, z].map((each) => each.toExponential(9)).join(',')), ''].join('\n')),
  }, { mtime: new Date('2031-05-04T09:30:00Z') }),
}

export const KINDS: readonly Kind[] = [
  blankUnderUnits, threeHeads, plainZyx, colonFraction, commaFraction, wholeSeconds, millimetres, counts, uptime,
  noTime, windows1252, zipped,
]

/** The drive that all of them logged. */
export const LOGGED = { rateHz: RATE_HZ, rows: driven.timeS.length, driven }

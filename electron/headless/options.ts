/** The command's options: texts of the command line parsed, with words for what does not fit. */
import { parseArgs } from 'node:util'
import type { RankQuestion } from '@core/analysis'
import { z } from 'zod'

export const HELP = `Usage: npm run analyse -- FILE [options]

Reads an exchange file and prints the axle curves, the load of each run and what follows from them.

  --json           JSON instead of tables; units stand in the keys
  --speed MS       road speed to predict for, m/s; may be given more than once
                   (the speed asked for with the car, and the ends of those read)
  --heights-to MS  road speed up to which ride heights are listed, m/s (30)
  --hold MM        clearance under the tray that a spring shall hold, mm (1)
  --hold-at MS     road speed at which it shall hold it, m/s (20)
  --find CM2       difference of ClA you wish to find, cm²: says how often the runs must be repeated
  --rank WHAT      puts the set-ups in order by loadPerDrag, corner or lap as well
  --radius M       radius of the corner for --rank corner, m (6)
  --course NAME    course for --rank lap (the first)
  --help           this text

Exit code 0 when done, 1 where a part could not be worked out, 2 on bad input. Nothing is written.`

/** Bad input: what, where and what to do. */
export class BadInput extends Error {}

export interface Options {
  readonly file: string
  readonly json: boolean
  /** Null where none was given. */
  readonly speedsMs: readonly number[] | null
  readonly heightsToMs: number
  readonly holdMm: number
  readonly holdAtMs: number
  readonly findM2: number | null
  /** What the set-ups are put in order by beside downforce; null for nothing. */
  readonly rank: RankQuestion['by'] | null
  readonly radiusM: number
  /** Name of the course; null for the first. */
  readonly course: string | null
}

const typed = (fits: (value: number) => boolean, error: string) =>
  z.string().refine((text) => text.trim() !== '' && fits(Number(text)), { error }).transform(Number)
const speed = typed((value) => value > 0 && value <= 150, 'give a speed in m/s above 0, up to 150')

/** Keys are the flags. */
const flags = z.object({
  speed: z.array(speed).max(50, { error: 'give it 50 times at most' }).nullable().default(null),
  'heights-to': speed.default(30),
  hold: typed((value) => value >= 0 && value <= 200, 'give a clearance in mm, 0 to 200').default(1),
  'hold-at': speed.default(20),
  find: typed((value) => value > 0 && value <= 1e5, 'give a difference of ClA in cm² above 0, up to 100000')
    .transform((cm2) => cm2 / 1e4).nullable().default(null),
  rank: z.enum(['loadPerDrag', 'corner', 'lap'], { error: 'give loadPerDrag, corner or lap' }).nullable().default(null),
  radius: typed((value) => value > 0 && value <= 1000, 'give a radius in m above 0, up to 1000').default(6),
  course: z.string().nullable().default(null),
})

function split(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args], allowPositionals: true,
      options: {
        json: { type: 'boolean' }, help: { type: 'boolean' }, speed: { type: 'string', multiple: true },
        'heights-to': { type: 'string' }, hold: { type: 'string' }, 'hold-at': { type: 'string' }, find: { type: 'string' },
        rank: { type: 'string' }, radius: { type: 'string' }, course: { type: 'string' },
      },
    })
  } catch (error) {
    throw new BadInput(`${(error as Error).message}\n\n${HELP}`)
  }
}

/**
 * The options, or `help`.
 *
 * @throws BadInput naming each flag that does not fit, what was given and what is wanted
 */
export function readOptions(args: readonly string[]): Options | 'help' {
  const { values, positionals } = split(args)
  if (values.help) return 'help'
  const [file, extra] = positionals
  if (file === undefined || extra !== undefined) throw new BadInput(`Give one exchange file.\n\n${HELP}`)
  const read = flags.safeParse(values)
  if (!read.success) {
    throw new BadInput(read.error.issues.map(({ path, message }) => {
      const [flag, index] = path as [keyof typeof values, number?]
      const given = values[flag]
      return `--${flag} ${Array.isArray(given) ? given[index ?? 0] : given}: ${message}`
    }).join('\n'))
  }
  const { speed: speedsMs, 'heights-to': heightsToMs, hold: holdMm, 'hold-at': holdAtMs, find: findM2, rank, radius: radiusM, course } = read.data
  return { file, json: values.json ?? false, speedsMs, heightsToMs, holdMm, holdAtMs, findM2, rank, radiusM, course }
}

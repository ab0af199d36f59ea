/** `tsx tests/harness/migrations.ts`: older files brought forward on a copy, newer ones refused; by the tests of it. */
import { readdirSync } from 'node:fs'
import { SCHEMA_VERSION } from '@core/schema'
import type { Figure } from './figure'
import { report } from './figure'
import { heldBy, runTests } from './heldBy'
import type { NamedTest } from './heldBy'

const SCHEMA = 'tests/unit/schema/migrate.test.ts'
const UPGRADE = 'tests/unit/electron/upgrade.test.ts'
const SURVIVES = 'tests/unit/electron/survives.test.ts'
const LIBRARY = 'tests/unit/electron/library.test.ts'

const HELD: readonly { what: string; tests: NamedTest[] }[] = [
  {
    what: 'A file of each version opens, and there is one step between each two',
    tests: [
      { file: SCHEMA, title: 'of version %i is kept as a fixture and opens' },
      { file: SCHEMA, title: 'has no fixture of a version nobody knows, and one step between each two' },
      { file: SCHEMA, title: 'starts in the middle for a file of the middle' },
      { file: SCHEMA, title: 'refuses where a step fails, and says which version it was' },
    ],
  },
  {
    what: 'A library of the version before: opened on a copy, each original kept once, byte for byte',
    tests: [
      { file: SCHEMA, title: 'goes from the version found to the newest on a copy' },
      { file: UPGRADE, title: 'opens brought forward, and its files stay as they are' },
      { file: UPGRADE, title: 'keeps the original of each file that is written anew, once' },
      { file: UPGRADE, title: 'takes an exchange file of the version before' },
    ],
  },
  {
    what: 'A newer version: refused in words, the file untouched, the rest opens',
    tests: [
      { file: SCHEMA, title: 'tells a newer version from a bad file, at every depth of an exchange file' },
      { file: UPGRADE, title: 'refuses the version after it in words' },
      { file: SURVIVES, title: 'is refused in words and stays as it is, while the rest opens' },
      { file: LIBRARY, title: 'refuses to write over a file of a newer version, with words' },
      { file: LIBRARY, title: 'of a newer version are refused with words' },
    ],
  },
]

/** All rows of this command. */
export function migrationFigures(): Figure[] {
  const fixtures = readdirSync(new URL('../unit/schema/fixtures', import.meta.url))
  const run = runTests([SCHEMA, UPGRADE, SURVIVES, LIBRARY])
  return [
    {
      what: 'Fixtures of stored versions',
      figure: `${fixtures.length} of ${SCHEMA_VERSION} (${fixtures.join(', ')})`,
      good: fixtures.length === SCHEMA_VERSION,
    },
    ...HELD.map(({ what, tests }) => {
      const { held, passed, failed } = heldBy(run, tests)
      return { what, figure: failed > 0 ? `${failed} tests fail` : `${passed} tests pass`, good: held }
    }),
  ]
}

if (import.meta.url === `file://${process.argv[1]}`) report('Migrations', migrationFigures())

import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { alias } from './electron.vite.config.ts'

/** What is held to a time by itself, and so runs alone. */
const TIMED = ['tests/e2e/log.e2e.ts', 'tests/e2e/camera.e2e.ts']
/** What puts another module in place of one of ours: only a process of its own sees it. */
const REPLACING = ['tests/unit/analysis/renaming.test.ts', 'tests/unit/electron/upgrade.test.ts']

/** What takes longest begins first, so that nothing long is left alone at the end. */
const LONGEST = ['live', 'fits-english', 'fits-german', 'axe', 'german', 'camera-readings', 'squat']
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const turn = ({ moduleId }: TestSpecification): number => {
      const at = LONGEST.findIndex((name) => moduleId.endsWith(`/${name}.e2e.ts`))
      return at < 0 ? LONGEST.length : at
    }
    return (await super.sort(files)).sort((a, b) => turn(a) - turn(b))
  }
}

export default defineConfig({
  plugins: [vue()],
  resolve: { alias },
  test: {
    sequence: { sequencer: LongestFirst },
    coverage: {
      include: ['shared-core/**'], reporter: ['text-summary', 'json-summary'], reportOnFailure: true,
      thresholds: { lines: 95 },
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['tests/{unit,reference,property}/**/*.test.ts'],
          exclude: REPLACING,
          // The core has no state: its modules are read once by each of as many processes as there are cores.
          isolate: false,
          unstubGlobals: true,
          maxWorkers: '100%',
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: { name: 'replacing', include: REPLACING, maxWorkers: '100%', testTimeout: 60_000 },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.e2e.ts'],
          exclude: TIMED,
          // Each file has a library, a host and a browser of its own; three at a time keep two cores busy, since the
          // live bench mostly waits for its film.
          maxWorkers: 3,
          sequence: { groupOrder: 1 },
          // The built desktop program is run as a module in a `vm`.
          execArgv: ['--experimental-vm-modules', '--disable-warning=ExperimentalWarning'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'timed',
          include: TIMED,
          fileParallelism: false,
          sequence: { groupOrder: 2 },
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})

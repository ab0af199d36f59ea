/** The quick tests that must notice a mistake in the numeric core's files named in `stryker.config.json`. */
import { defineConfig } from 'vitest/config'
import { alias } from '../../electron.vite.config'

export default defineConfig({
  resolve: { alias },
  test: {
    include: ['tests/{unit,reference}/{chassis,uncertainty,airflow}/**/*.test.ts'],
    // Monte Carlo's own tests take long and reach none of those files.
    exclude: ['**/monteCarlo.test.ts', '**/jcgm101.test.ts', 'tests/unit/uncertainty/stream.test.ts'],
  },
})

import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { alias } from './electron.vite.config.ts'

export default defineConfig({
  plugins: [vue()],
  resolve: { alias },
  test: {
    coverage: {
      include: ['shared-core/**'], reporter: ['text-summary', 'json-summary'], reportOnFailure: true, thresholds: { lines: 95 },
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['tests/{unit,reference,property}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.e2e.ts'],
          fileParallelism: false,
          // The built desktop program is run as a module in a `vm`.
          execArgv: ['--experimental-vm-modules', '--disable-warning=ExperimentalWarning'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})

import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'vitest/config'
import { alias } from './electron.vite.config'

export default defineConfig({
  plugins: [vue()],
  resolve: { alias },
  test: {
    include: ['tests/{unit,reference,property}/**/*.test.ts'],
    testTimeout: 30_000,
    coverage: { include: ['shared-core/**'], reporter: ['text-summary', 'json-summary'] },
  },
})

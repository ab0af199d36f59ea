import { fileURLToPath } from 'node:url'
import vue from '@vitejs/plugin-vue'
import { defineConfig } from 'electron-vite'
import { collectLicences } from './electron/tools/licencePlugin.ts'
import { SHIPPED } from './electron/tools/shipped.ts'

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url))
export const alias = { '@core': at('./shared-core'), '@electron': at('./electron'), '@renderer': at('./renderer') }

export default defineConfig({
  main: {
    resolve: { alias },
    plugins: [collectLicences()],
    build: { outDir: 'out/main', lib: { entry: at('./electron/main/index.ts') } },
  },
  preload: {
    resolve: { alias },
    // A sandboxed preload must be CommonJS; in a package of type "module" only the ending .cjs says so.
    build: {
      outDir: 'out/preload',
      lib: { entry: at('./electron/preload/index.ts'), formats: ['cjs'], fileName: () => 'index.cjs' },
    },
  },
  renderer: {
    root: at('./renderer'),
    resolve: { alias },
    plugins: [vue(), collectLicences('program', SHIPPED)],
    worker: { format: 'es', plugins: () => [collectLicences('worker')] },
    build: {
      outDir: at('./out/renderer'),
      minify: true,
      // The window's policy takes no file that stands in another as data.
      assetsInlineLimit: 0,
      rollupOptions: { input: at('./renderer/index.html') },
    },
  },
})

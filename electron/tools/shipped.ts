/**
 * The packages that the program's own files take in, workers and faces included. What they bring along themselves is
 * found while bundling; a test holds the list to the imports.
 */
export const SHIPPED: readonly string[] = [
  '@fontsource-variable/sofia-sans', '@fontsource-variable/sofia-sans-semi-condensed', '@fontsource/noto-sans-math',
  '@noble/hashes', 'chart.js', 'fflate', 'immer', 'libheif-js', 'mediabunny', 'papaparse', 'pinia', 'vue', 'vue-chartjs',
  'vue-i18n', 'vue-router', 'zod',
]

import type { Linter } from 'eslint'
import vue from 'eslint-plugin-vue'
import ts from 'typescript-eslint'
import vueParser from 'vue-eslint-parser'

/** Rooms of shared-core from the floor up; each may import only from rooms before it in this list. */
const FLOORS = [
  ['units', 'schema', 'linear'], ['services', 'uncertainty'], ['chassis'], ['calibration'], ['airflow', 'camera'], ['aero'],
  ['track'], ['analysis'], ['report'],
]

const floorRules: Linter.Config[] = FLOORS.flatMap((rooms, floor) =>
  rooms.map((room) => ({
    files: [`shared-core/${room}/**/*.ts`],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['@electron/*', '@renderer/*', 'node:*', 'electron', 'vue', 'fs', 'path'], message: 'shared-core is pure.' },
            ...FLOORS.slice(floor).flat().filter((other) => other !== room && !(room === 'schema' && other === 'units'))
              .map((other) => ({ group: [`@core/${other}`, `@core/${other}/*`], message: 'Imports only go down.' })),
          ],
        },
      ],
      'no-restricted-globals': ['error', 'window', 'document', 'process', 'Buffer', 'performance', 'setTimeout', 'fetch'],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Randomness in shared-core is seeded.' },
        { object: 'Date', property: 'now', message: 'shared-core knows no wall clock.' },
      ],
    },
  })),
)

export default ts.config(
  { ignores: ['out/**', 'dist/**', 'node_modules/**', 'coverage/**', '.stryker-tmp/**'] },
  ...ts.configs.recommended,
  ...vue.configs['flat/recommended'],
  {
    files: ['**/*.vue'],
    languageOptions: { parser: vueParser, parserOptions: { parser: ts.parser } },
    rules: {
      'vue/max-attributes-per-line': 'off',
      'vue/singleline-html-element-content-newline': 'off',
      'vue/html-self-closing': 'off',
      'vue/multi-word-component-names': 'off',
      'vue/html-indent': 'off',
      'vue/html-closing-bracket-newline': 'off',
      'vue/first-attribute-linebreak': 'off',
      'vue/multiline-html-element-content-newline': 'off',
      // Types say which props may be left out.
      'vue/require-default-prop': 'off',
      'vue/no-v-html': 'error',
    },
  },
  {
    rules: {
      'no-console': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      'max-len': ['error', { code: 120, ignoreUrls: true, ignoreStrings: true, ignoreTemplateLiterals: true, ignoreRegExpLiterals: true }],
      eqeqeq: 'error',
      'prefer-const': 'error',
    },
  },
  { files: ['**/*.vue'], rules: { 'max-len': 'off', 'no-undef': 'off' } },
  ...floorRules,
)

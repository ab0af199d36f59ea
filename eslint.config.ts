import type { Linter } from 'eslint'
import vue from 'eslint-plugin-vue'
import ts from 'typescript-eslint'
import vueParser from 'vue-eslint-parser'
import { FLOORS, mayImport } from './floors'

const floorRules: Linter.Config[] = FLOORS.flatMap((rooms) =>
  rooms.map((room) => ({
    files: [`shared-core/${room}/**/*.ts`],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['@electron/*', '@renderer/*', 'node:*', 'electron', 'vue', 'fs', 'path'], message: 'shared-core is pure.' },
            ...FLOORS.flat().filter((other) => !mayImport(room, other))
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

/** Two spaces and line length aside, what a line looks like. */
const format: Linter.RulesRecord = {
  semi: ['error', 'never'],
  quotes: ['error', 'single', { avoidEscape: true, allowTemplateLiterals: true }],
  'comma-dangle': ['error', 'always-multiline'],
  'comma-spacing': 'error',
  'key-spacing': 'error',
  'keyword-spacing': 'error',
  'space-infix-ops': 'error',
  'space-before-blocks': 'error',
  'arrow-spacing': 'error',
  'arrow-parens': 'error',
  'object-curly-spacing': ['error', 'always'],
  'brace-style': ['error', '1tbs', { allowSingleLine: true }],
  'no-multiple-empty-lines': ['error', { max: 1, maxBOF: 0, maxEOF: 0 }],
  'no-trailing-spaces': 'error',
  'no-tabs': 'error',
  'eol-last': 'error',
  'linebreak-style': 'error',
  'unicode-bom': 'error',
}

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
      ...format,
      eqeqeq: 'error',
      'prefer-const': 'error',
    },
  },
  { files: ['**/*.vue'], rules: { 'max-len': 'off', 'no-undef': 'off' } },
  ...floorRules,
)

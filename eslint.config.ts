import type { Linter } from 'eslint'
import stylistic from '@stylistic/eslint-plugin'
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

const ignore = { ignoreUrls: true, ignoreStrings: true, ignoreTemplateLiterals: true, ignoreRegExpLiterals: true }

/** What a line of TypeScript looks like; a file of the window is laid out whole by Prettier (`npm run format`). */
const format: Linter.RulesRecord = {
  '@stylistic/semi': ['error', 'never'],
  '@stylistic/quotes': ['error', 'single', { avoidEscape: true, allowTemplateLiterals: 'always' }],
  '@stylistic/comma-dangle': ['error', 'always-multiline'],
  '@stylistic/comma-spacing': 'error',
  '@stylistic/key-spacing': 'error',
  '@stylistic/keyword-spacing': 'error',
  '@stylistic/space-infix-ops': 'error',
  '@stylistic/space-before-blocks': 'error',
  '@stylistic/arrow-spacing': 'error',
  '@stylistic/arrow-parens': 'error',
  '@stylistic/object-curly-spacing': ['error', 'always'],
  '@stylistic/brace-style': ['error', '1tbs', { allowSingleLine: true }],
  '@stylistic/no-multiple-empty-lines': ['error', { max: 1, maxBOF: 0, maxEOF: 0 }],
  '@stylistic/no-trailing-spaces': 'error',
  '@stylistic/no-tabs': 'error',
  '@stylistic/eol-last': 'error',
  '@stylistic/linebreak-style': 'error',
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
      eqeqeq: 'error',
      'prefer-const': 'error',
    },
  },
  {
    files: ['**/*.ts'],
    plugins: { '@stylistic': stylistic },
    rules: { ...format, '@stylistic/max-len': ['error', { code: 120, ...ignore }] },
  },
  {
    files: ['**/*.vue'],
    rules: {
      'no-undef': 'off',
      'vue/max-len': ['error', { code: 120, template: 120, ignoreHTMLAttributeValues: true, ignoreHTMLTextContents: true, ...ignore }],
    },
  },
  ...floorRules,
)

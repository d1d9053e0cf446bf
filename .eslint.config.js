import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import { createRequire } from 'node:module';
import ts from 'typescript-eslint';
import { oneUnit } from './.scripts/unit-rule.mjs';

const { mayImport, home } = createRequire(import.meta.url)('./.architecture.cjs');

/** The libraries that have no home at this place. */
const strangers = (place) =>
  Object.entries(home)
    .filter(([, places]) => !places.some((p) => place === p || place.startsWith(p + '/')))
    .map(([library, places]) => ({
      group: [library, `${library}/*`],
      message: `${library} lives in src/${places[0]}.`,
    }));

const sessionInView = {
  group: ['**/session.svelte', '**/session.svelte.ts', '**/worker/*'],
  message: 'A view is a function of the plan: take it as a prop.',
};

export default ts.config(
  { ignores: ['dist/**', 'coverage/**', 'tests/output/**', '.stryker-tmp/**'] },
  js.configs.recommended,
  ...ts.configs.recommendedTypeChecked,
  ...svelte.configs.recommended,
  {
    languageOptions: {
      globals: { ...globals.browser, ...globals.worker, ...globals.node },
      parserOptions: { projectService: true, extraFileExtensions: ['.svelte'] },
    },
    plugins: { units: { rules: { 'one-unit': oneUnit } } },
    rules: {
      'units/one-unit': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    },
  },
  { files: ['**/*.svelte', '**/*.svelte.ts'], languageOptions: { parserOptions: { parser: ts.parser } } },
  // Props of imported components count as `any` for type-checked rules in .svelte files.
  { files: ['**/*.svelte'], ...ts.configs.disableTypeChecked },
  { files: ['**/*.{js,cjs,mjs}'], ...ts.configs.disableTypeChecked },
  { files: ['**/*.svelte'], rules: { 'svelte/no-at-html-tags': 'error' } },
  ...Object.keys(mayImport).map((place) => ({
    files: [`src/${place}/**/*.{ts,svelte}`],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        { patterns: [...strangers(place), ...(place.startsWith('app/') ? [sessionInView] : [])] },
      ],
    },
  })),
);

import { svelte } from '@sveltejs/vite-plugin-svelte';
import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';
import { codeCache } from './.scripts/code-cache-plugin.mjs';
import { offline } from './.scripts/offline-plugin.mjs';
import { fewNames } from './.scripts/proj4-names.mjs';

const here = import.meta.dirname;

/** The command line: its libraries are inside, and what V8 compiled lies beside it, so that it starts quickly. */
const commandLine = defineConfig({
  root: 'src',
  publicDir: false,
  plugins: [fewNames(), codeCache()],
  ssr: { noExternal: true, target: 'node' },
  build: {
    ssr: resolve(here, 'src/cli/firnward.ts'),
    outDir: resolve(here, 'dist/cli'),
    emptyOutDir: true,
    target: 'node20',
    minify: true,
    rolldownOptions: { output: { format: 'cjs', entryFileNames: 'program.js', chunkFileNames: '[name].js' } },
  },
});

/** Components rendered in tests carry their styles with them, so that the pictures can be looked at. */
const pageIn = (mode: string) =>
  defineConfig({
    root: 'src',
    base: './',
    publicDir: resolve(here, 'public'),
    plugins: [svelte({ configFile: false, emitCss: mode !== 'test' }), offline()],
    worker: { format: 'es' },
    build: {
      outDir: resolve(here, 'dist/app'),
      emptyOutDir: true,
      target: 'es2022',
      chunkSizeWarningLimit: 1200,
    },
    test: {
      root: here,
      projects: [
        {
          extends: true,
          test: {
            name: 'node',
            root: here,
            include: ['tests/**/*.test.ts'],
            setupFiles: ['tests/seed.ts'],
            exclude: ['tests/browser/**'],
            environment: 'node',
            testTimeout: 30_000,
            maxWorkers: 2,
          },
        },
        {
          extends: true,
          test: {
            name: 'browser',
            root: here,
            include: ['tests/browser/**/*.test.ts'],
            environment: 'node',
            testTimeout: 120_000,
            hookTimeout: 180_000,
            // How quick the page is, `npm run bench -- page` says; a machine may be busy.
            expect: { poll: { timeout: 20_000 } },
            fileParallelism: false,
          },
        },
      ],
    },
  });

export default defineConfig(({ mode }) => (mode === 'cli' ? commandLine : pageIn(mode)));

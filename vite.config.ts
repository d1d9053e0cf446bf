import { svelte } from '@sveltejs/vite-plugin-svelte';
import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

const here = import.meta.dirname;

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: resolve(here, 'public'),
  plugins: [svelte({ configFile: false })],
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
          exclude: ['tests/browser/**'],
          environment: 'node',
          testTimeout: 30_000,
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
          fileParallelism: false,
        },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';

/** The tests of one folder of the core and those against published sources, for mutation testing. */
const folder = process.env['FIRNWARD_MUTATE'] ?? '';

export default defineConfig({
  test: {
    include: [`tests/core/${folder}/**/*.test.ts`, 'tests/published/**/*.test.ts'],
    environment: 'node',
    testTimeout: 120_000,
  },
});

import { readFileSync } from 'node:fs';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { keptThread } from './mutate.thread';

/** The tests of one folder of the core, those against published sources and quick references, for mutation testing. */
const folder = process.env['FIRNWARD_MUTATE'] ?? '';
const without = process.env['FIRNWARD_MUTATE_WITHOUT']?.split(',').filter(Boolean) ?? [];

/** A changed line is done with at the first test that fails, so the quick ones go first: examples before laws. */
class ExamplesFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLaw = ({ moduleId }: TestSpecification) =>
      readFileSync(moduleId, 'utf8').includes("from 'fast-check'") ? 1 : 0;
    return Promise.resolve(files.toSorted((a, b) => isLaw(a) - isLaw(b)));
  }
}

export default defineConfig({
  plugins: [
    {
      name: 'one-thread',
      configureVitest({ project }) {
        project.config.pool = keptThread.name as never;
        project.config.poolRunner = keptThread;
      },
    },
  ],
  test: {
    include: [
      `tests/core/${folder}/**/*.test.ts`,
      'tests/published/**/*.test.ts',
      'tests/reference/{mgrs-package,utm-karney}.test.ts',
    ],
    exclude: without.map((name) => `tests/core/${folder}/${name}.test.ts`),
    setupFiles: ['tests/seed.ts', '.scripts/mutate.setup.ts'],
    environment: 'node',
    testTimeout: 120_000,
    // The core keeps nothing between tests.
    isolate: false,
    sequence: { sequencer: ExamplesFirst },
  },
});

/**
 * `npm run mutate -- slip`: mutation score of one folder of the core (slip, plan, line, ground, pace), by its own tests.
 * A line for the folder: `mutation-score-<folder> value % >=85 ok|short`. Survivors are listed in tests/output/mutation.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const folders = process.argv.slice(2);
const known = ['slip', 'plan', 'line', 'ground', 'pace', 'assumptions'];
if (folders.length === 0 || folders.some((folder) => !known.includes(folder))) {
  console.error(`Say which: npm run mutate -- ${known.join('|')}`);
  process.exit(2);
}
const minutesEach = 60;
const outputs = resolve(root, 'tests/output/mutation');
mkdirSync(outputs, { recursive: true });

let short = 0;
for (const folder of folders) {
  const report = resolve(outputs, `${folder}.json`);
  const config = resolve(outputs, `${folder}.config.json`);
  writeFileSync(
    config,
    JSON.stringify({
      mutate: [`src/core/${folder}/**/*.ts`],
      testRunner: 'vitest',
      vitest: { configFile: '.scripts/mutate.vitest.ts' },
      reporters: ['json', 'clear-text'],
      jsonReporter: { fileName: report },
      concurrency: 2,
      timeoutMS: 20000,
      coverageAnalysis: 'perTest',
      ignoreStatic: true,
      tempDirName: '.stryker-tmp',
      allowEmpty: false,
    }),
  );
  const { status } = spawnSync(resolve(root, 'node_modules/.bin/stryker'), ['run', config], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    timeout: minutesEach * 60_000,
    env: { ...process.env, FIRNWARD_MUTATE: folder },
  });
  const score =
    status === 0 && existsSync(report) ? mutationScore(JSON.parse(readFileSync(report, 'utf8'))) : null;
  const verdict = score === null ? 'not-measured' : score >= 85 ? 'ok' : 'short';
  if (verdict === 'short') short++;
  console.log(`mutation-score-${folder} ${score === null ? '-' : score.toFixed(1)} % >=85 ${verdict}`);
}
for (const folder of known.filter((name) => !folders.includes(name)))
  console.log(`mutation-score-${folder} - % >=85 not-measured not asked for`);
process.exit(short === 0 ? 0 : 1);

/** Killed and timed out, of all that ran or had no test. */
function mutationScore({ files }) {
  const all = Object.values(files).flatMap((file) => file.mutants.map((mutant) => mutant.status));
  const found = all.filter((status) => status === 'Killed' || status === 'Timeout').length;
  const valid = all.filter((status) =>
    ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(status),
  ).length;
  return (100 * found) / valid;
}

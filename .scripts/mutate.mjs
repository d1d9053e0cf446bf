/**
 * `npm run mutate -- slip`: mutation score of one folder of the core, by its own tests and those against published sources;
 * `npm run mutate -- slip/tables` changes one file of it only. What has not changed since the last run is not tried again;
 * `--afresh` forgets the last run.
 *
 * A line for the folder: `mutation-score-<folder> value % >=85 ok|short`. Changes that no test noticed are listed in
 * tests/output/mutation; why some never will be stands in .scripts/mutate-survivors.md.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { relative, resolve, sep } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const known = ['slip', 'plan', 'line', 'ground', 'pace', 'assumptions'];
const isAfresh = process.argv.includes('--afresh');
const asked = process.argv.slice(2).filter((word) => word !== '--afresh');
const folders = [...new Set(asked.map((name) => name.split('/')[0]))];
if (folders.length === 0 || folders.some((folder) => !known.includes(folder))) {
  console.error(`Say which: npm run mutate -- ${known.join('|')}`);
  process.exit(2);
}
const minutesEach = 60;
const outputs = resolve(root, 'tests/output/mutation');
mkdirSync(outputs, { recursive: true });

/**
 * Tables are built from thousands of slips, and code made ready for changes runs some thirty times slower: so of slips one file is
 * made ready at a time, and what follows a slip is tried without the tests of what is built upon it. Whole days planned by real
 * slips cost as much as all other tests of the plan. What a part of the files came to is kept when the next one runs out of time.
 */
const uponTheSlip = [
  'tables',
  'slip-sheet',
  'sheet-lookup',
  'shares-range',
  'slip-report',
  'lead-above-stance',
];
const slowOnTheSlip = ['tables', 'shares-table', 'practice', 'slip-report', 'lead-above-stance', 'steady'];
const slow = { plan: ['practice'] };
const inOnePart = 8;
function partsOf(folder, files) {
  if (folder === 'slip')
    return files.map((file) => ({
      files: [file],
      without: uponTheSlip.includes(file) ? ['steady'] : slowOnTheSlip,
    }));
  const starts = files.map((_, i) => i).filter((i) => i % inOnePart === 0);
  return starts.map((i) => ({ files: files.slice(i, i + inOnePart), without: slow[folder] ?? [] }));
}

let short = 0;
for (const folder of folders) {
  const all = readdirSync(resolve(root, 'src/core', folder), { recursive: true })
    .map((name) => name.split(sep).join('/'))
    .filter((name) => name.endsWith('.ts'))
    .map((name) => name.slice(0, -3));
  const files = all.filter((name) => asked.includes(folder) || asked.includes(`${folder}/${name}`));
  const output = (kind) => resolve(outputs, `${folder}.${kind}`);
  if (isAfresh) rmSync(output('incremental.json'), { force: true });
  const endsAt = Date.now() + minutesEach * 60_000;
  const unmeasured = partsOf(folder, files).filter((part) => !hasRun(folder, part, endsAt));
  const minutes = Math.ceil((Date.now() - endsAt) / 60_000) + minutesEach;
  const report = existsSync(output('incremental.json'))
    ? JSON.parse(readFileSync(output('incremental.json'), 'utf8'))
    : { files: {} };
  const left = all.filter(
    (name) =>
      unmeasured.some((part) => part.files.includes(name)) ||
      report.files[`src/core/${folder}/${name}.ts`] === undefined,
  );
  const mutants = mutantsOf(report);
  writeFileSync(
    output('survivors.txt'),
    mutants
      .filter(isMissed)
      .map(({ text }) => text)
      .join('\n'),
  );
  const tried = mutants.filter(isTried);
  const score = (100 * tried.filter(isFound).length) / tried.length;
  const verdict = left.length > 0 || tried.length === 0 ? 'not-measured' : score >= 85 ? 'ok' : 'short';
  if (verdict === 'short') short++;
  const count = (status) => mutants.filter((mutant) => mutant.status === status).length;
  console.log(
    `mutation-score-${folder} ${tried.length === 0 ? '-' : score.toFixed(1)} % >=85 ${verdict} ${tried.length} changes, ` +
      `${count('Timeout')} found by time, ${count('NoCoverage')} without a test, ${count('Ignored')} constants not tried; ` +
      `${minutes} min${left.length > 0 ? `, not tried to the end: ${left.join(' ')}` : ''}`,
  );
}
for (const folder of known.filter((name) => !folders.includes(name)))
  console.log(`mutation-score-${folder} - % >=85 not-measured not asked for`);
process.exit(short === 0 ? 0 : 1);

/** Tries every change of some files, and keeps what became of it. False: not ended in time. */
function hasRun(folder, { files, without }, endsAt) {
  const config = resolve(outputs, `${folder}.config.json`);
  writeFileSync(
    config,
    JSON.stringify({
      mutate: files.map((name) => `src/core/${folder}/${name}.ts`),
      ignorePatterns: ['dist', 'public', 'sample-tracks', 'coverage', 'tests/output'],
      testRunner: 'vitest',
      vitest: { configFile: '.scripts/mutate.vitest.ts' },
      reporters: ['progress-append-only'],
      incremental: true,
      incrementalFile: resolve(outputs, `${folder}.incremental.json`),
      concurrency: Number(process.env.FIRNWARD_WORKERS ?? Math.min(2, cpus().length)),
      timeoutMS: 10_000,
      dryRunTimeoutMinutes: 20,
      coverageAnalysis: 'perTest',
      // Constants of a module are in force before a test begins: each would need every test, afresh.
      ignoreStatic: true,
      tempDirName: '.stryker-tmp',
      allowEmpty: false,
    }),
  );
  const env = {
    ...process.env,
    // The same cases every time: a change is found or not, whenever it is tried.
    FIRNWARD_SEED: '20261125',
    FIRNWARD_MUTATE: folder,
    FIRNWARD_MUTATE_WITHOUT: without.join(),
  };
  const stdio = ['ignore', 'inherit', 'inherit'];
  const timeout = endsAt - Date.now();
  if (timeout <= 0) return false;
  const stryker = resolve(root, 'node_modules/.bin/stryker');
  return spawnSync(stryker, ['run', config], { cwd: root, stdio, timeout, env }).status === 0;
}

/** Every change that was made: what became of it, and where it was. */
function mutantsOf(report) {
  return Object.entries(report.files).flatMap(([path, { source, mutants }]) =>
    mutants.map(({ status, mutatorName, location: { start }, replacement }) => {
      const place = `${relative(root, resolve(root, path)).split(sep).join('/')}:${start.line}:${start.column}`;
      const line = source.split('\n')[start.line - 1]?.trim();
      return { status, text: `${status} ${place} ${mutatorName}\n  ${line}\n  -> ${replacement}` };
    }),
  );
}

function isFound({ status }) {
  return status === 'Killed' || status === 'Timeout';
}

function isMissed({ status }) {
  return status === 'Survived' || status === 'NoCoverage';
}

function isTried(mutant) {
  return isFound(mutant) || isMissed(mutant);
}

/**
 * Everything that must be right before a change lands: format, lint, architecture, types, tests, tests in a real browser.
 * Runs all of it even when a part fails; the last line counts: `N passed, N failed, N skipped`.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const outputs = resolve(root, 'tests/output');
const bin = (name) => resolve(root, 'node_modules/.bin', name + (process.platform === 'win32' ? '.cmd' : ''));

const steps = [
  [
    'format',
    bin('prettier'),
    ['--check', '--log-level', 'warn', 'src', 'tests', '.scripts', '*.ts', '.*.cjs', '.*.js'],
  ],
  ['lint', bin('eslint'), ['-c', '.eslint.config.js', 'src', 'tests']],
  ['architecture', bin('depcruise'), ['--config', '.dependency-cruiser.cjs', 'src']],
  ['types of the core', bin('tsc'), ['-p', 'src/core', '--noEmit']],
  ['types of the rest', bin('tsc'), ['-p', '.', '--noEmit']],
  ['types of the views', bin('svelte-check'), ['--tsconfig', './tsconfig.json', '--threshold', 'error']],
  ['build', 'npm', ['run', '--silent', 'build']],
];

let passed = 0;
let failed = 0;
let skipped = 0;

/** Two at a time, as many as the smallest machine has cores; what each prints stays together. */
async function takeSteps(waiting) {
  for (let step = waiting.shift(); step; step = waiting.shift()) {
    const [name, command, args] = step;
    const startedMs = Date.now();
    const { status, said } = await run(command, args);
    if (status === 0) passed++;
    else failed++;
    const took = `${((Date.now() - startedMs) / 1000).toFixed(0)} s`;
    console.log(`${said}${status === 0 ? 'ok  ' : 'FAIL'} ${name} (${took})`);
  }
}

const run = (command, args) =>
  new Promise((resolve) => {
    const child = spawn(command, args, { cwd: root, shell: process.platform === 'win32' });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text));
    child.on('error', (reason) => resolve({ status: 1, said: `${reason}\n` }));
    child.on('close', (status) => resolve({ status, said }));
  });

const waiting = [...steps];
await Promise.all([takeSteps(waiting), takeSteps(waiting)]);

mkdirSync(outputs, { recursive: true });
for (const project of ['node', 'browser']) {
  const report = resolve(outputs, `report-${project}.json`);
  rmSync(report, { force: true });
  spawnSync(
    bin('vitest'),
    [
      'run',
      '--project',
      project,
      '--passWithNoTests',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${report}`,
    ],
    { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' },
  );
  if (!existsSync(report)) {
    failed++;
    continue;
  }
  const counts = JSON.parse(readFileSync(report, 'utf8'));
  passed += counts.numPassedTests;
  failed += counts.numFailedTests + (counts.success || counts.numFailedTests > 0 ? 0 : 1);
  skipped += counts.numPendingTests + (counts.numTodoTests ?? 0);
}

if (process.env.FIRNWARD_DATA === undefined)
  console.log(
    'not run: checks on real rasters and tracks (set FIRNWARD_DATA to their folder); counted as skipped',
  );
console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exit(failed === 0 ? 0 : 1);

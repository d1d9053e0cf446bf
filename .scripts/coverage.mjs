/**
 * `npm run coverage`: branches of the core that the tests take, folder by folder, those not taken by place, and the lines that are
 * left out of the count with the reason beside them. Exit 1 below 100 %.
 *
 * `npm run coverage -- slip plan` looks at some folders only, by their own tests and those against published sources.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { relative, resolve, sep } from 'node:path';

const root = resolve(import.meta.dirname, '..');
const folders = process.argv.slice(2);
const outputs = resolve(root, 'tests/output/coverage');
rmSync(outputs, { recursive: true, force: true });
const include = folders.length > 0 ? folders.map((name) => `src/core/${name}/**/*.ts`) : ['src/core/**/*.ts'];
const tests = folders.length > 0 ? [...folders.map((name) => `tests/core/${name}`), 'tests/published'] : [];

const { status } = spawnSync(
  resolve(root, 'node_modules/.bin/vitest'),
  [
    'run',
    '--project=node',
    '--reporter=dot',
    '--testTimeout=120000',
    '--coverage.enabled',
    '--coverage.provider=v8',
    '--coverage.reporter=json',
    `--coverage.reportsDirectory=${outputs}`,
    ...include.map((pattern) => `--coverage.include=${pattern}`),
    ...tests,
  ],
  { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] },
);
const report = resolve(outputs, 'coverage-final.json');
if (!existsSync(report)) {
  console.log(`branches-core - % >=100 not-measured the tests ended with ${status}`);
  process.exit(1);
}

const byFolder = new Map();
const missing = [];
for (const [path, { b, branchMap }] of Object.entries(JSON.parse(readFileSync(report, 'utf8')))) {
  const name = relative(resolve(root, 'src'), path).split(sep).join('/');
  const folder = name.split('/').slice(0, 2).join('/');
  const sum = byFolder.get(folder) ?? { taken: 0, all: 0 };
  for (const [id, counts] of Object.entries(b))
    counts.forEach((count, way) => {
      sum.all += 1;
      if (count > 0) sum.taken += 1;
      else
        missing.push(`${name}:${branchMap[id].locations[way]?.start?.line ?? branchMap[id].loc.start.line}`);
    });
  byFolder.set(folder, sum);
}

const total = { taken: 0, all: 0 };
let short = 0;
const line = (name, { taken, all }) => {
  const verdict = taken === all ? 'ok' : 'short';
  if (verdict === 'short') short++;
  console.log(
    `branches-${name} ${((100 * taken) / Math.max(1, all)).toFixed(2)} % >=100 ${verdict} ${taken} of ${all}`,
  );
};
for (const [folder, sum] of [...byFolder].sort()) {
  line(folder, sum);
  total.taken += sum.taken;
  total.all += sum.all;
}
line('core-in-all', total);
if (missing.length > 0) console.log(`not taken:\n  ${[...new Set(missing)].join('\n  ')}`);

/** Lines that are not counted: a word of why must stand in the same comment. */
let silent = 0;
const core = resolve(root, 'src/core');
for (const path of readdirSync(core, { recursive: true })
  .filter((name) => name.endsWith('.ts'))
  .sort())
  readFileSync(resolve(core, path), 'utf8')
    .split('\n')
    .forEach((text, i) => {
      const [, why] = /v8 ignore\s+(?:next|start|if|else|file)[^-]*(?:--\s*(.+?)\s*\*\/)?/.exec(text) ?? [];
      if (!text.includes('v8 ignore') || text.includes('v8 ignore stop')) return;
      if (why === undefined) silent++;
      console.log(`left out: core/${path.split(sep).join('/')}:${i + 1} ${why ?? 'NO REASON'}`);
    });
process.exit(short === 0 && silent === 0 && status === 0 ? 0 : 1);

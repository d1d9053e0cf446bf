import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const text = readFileSync(resolve(root, 'DEVELOPERS.md'), 'utf8');
const places = ['.', 'src', 'src/core', 'src/app', 'tests', 'tests/core'];

/** Names in backticks that are paths: of folders and files under the root, src, core, app or tests; endings may be left out. */
const paths = [
  ...new Set([...text.matchAll(/`([\w.@-]+(?:\/[\w.@-]+)+\/?|[\w-]+\.(?:ts|svelte|html|css|json|mjs))`/g)]),
]
  .map(([, path]) => path ?? '')
  .filter((path) => !path.startsWith('@') && path !== 'index.ts');

const exists = (path: string): boolean =>
  places.some((place) =>
    ['', '.ts', '.test.ts', '.svelte', '.figures.ts'].some((ending) =>
      existsSync(join(root, place, path.replace(/\/$/, '') + ending)),
    ),
  );

test('every file and folder that DEVELOPERS.md names is there', () => {
  expect(paths.length).toBeGreaterThan(60);
  expect(paths.filter((path) => !exists(path))).toEqual([]);
});

/** The last cells of the rows of the first table under a heading. */
function lastCells(heading: string): string[] {
  const section = text.split(`\n## ${heading}\n`)[1]?.split('\n## ')[0] ?? '';
  const [table = ''] = section.slice(section.indexOf('\n|') + 1).split('\n\n');
  return table
    .trim()
    .split('\n')
    .slice(2)
    .map((line) => line.split('|').at(-2)?.trim() ?? '');
}

test.each(['Sources', 'Security', 'Hazards'])('each row of %s ends in a test that exists', (heading) => {
  const cells = lastCells(heading);
  expect(cells.length).toBeGreaterThan(5);
  for (const cell of cells) {
    const named = [...cell.matchAll(/`([^`]+)`/g)].map(([, path]) => path ?? '');
    expect(named.length, cell).toBeGreaterThan(0);
    for (const path of named) {
      const file = join(root, 'tests', `${path}.test.ts`);
      expect(existsSync(file) && statSync(file).isFile(), `${path} in "${cell}"`).toBe(true);
    }
  }
});

test('every published source has its row in Sources', () => {
  const published = readdirSync(resolve(root, 'tests/published'))
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => `published/${name.replace('.test.ts', '')}`);
  const named = lastCells('Sources').join(' ');
  expect(published.filter((path) => !named.includes(`\`${path}\``))).toEqual([]);
});

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { plan } from '../../src/cli/plan';
import { startTables } from '../../src/cli/slip-threads';
import { defaultFigures } from '../../src/core/assumptions/figures';
import { defaultParty } from '../../src/core/domain/rope-team';
import { buildTables } from '../../src/core/slip/tables';
import { firnward } from './built-cli';

const place = mkdtempSync(join(tmpdir(), 'firnward-threads-'));
afterAll(() => rmSync(place, { recursive: true, force: true }));

test('tables taken sheet by sheet are those built at once, each in its place', async () => {
  const snows = [{ hardness: 'P', wetness: 'D' }] as const;
  const asked = (['roped', 'running'] as const).map((variant) => ({
    party: defaultParty,
    figures: defaultFigures,
    snows,
    options: { quality: 'coarse', variants: [variant] } as const,
  }));
  const told: number[] = [];
  const built = await startTables(asked).finish((done) => told.push(done));
  expect(built).toEqual(
    asked.map(({ party, figures, options }) => buildTables(party, figures, snows, options)),
  );
  expect(told.at(-1)).toBe(1);
  expect(told).toEqual(told.toSorted((a, b) => a - b));
});

test('a plan by the built program, on all cores, is the plan of one thread', async () => {
  vi.stubEnv('SOURCE_DATE_EPOCH', '1767225600');
  const words = (out: string) => [
    'plan',
    '--line',
    'sample-tracks/ombry-headwall.gpx',
    '--elevation',
    'public/demo/ombry-terrain.tif',
    '--out',
    out,
  ];
  const [ours, theirs] = [join(place, 'one.json'), join(place, 'all.json')];
  await plan(words(ours).slice(1));
  expect((await firnward(words(theirs))).code).toBe(0);
  expect(readFileSync(theirs, 'utf8')).toBe(readFileSync(ours, 'utf8'));
  vi.unstubAllEnvs();
}, 180_000);

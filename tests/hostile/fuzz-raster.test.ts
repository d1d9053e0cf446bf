import { expect, test } from 'vitest';
import { ascSeeds, mutatedAsc, mutatedHgt } from '../fuzz/grid-mutate';
import { Dice } from '../fuzz/mutate';
import { judgeRaster } from '../fuzz/raster-case';
import { mutatedRaster } from '../fuzz/raster-mutate';
import { rasterSeeds } from '../fuzz/raster-seeds';

/** A small slice of `npm run fuzz -- raster`: enough to notice a reader that has come loose. */
const files = 800;

test('changed GeoTIFFs are refused by code, or read as a second reader reads them', async () => {
  const dice = new Dice(20_310_514);
  const seen = { refused: 0, accepted: 0, compared: 0 };
  for (let i = 0; i < files; i++) {
    const verdict = await judgeRaster({ name: 'changed.tif', bytes: mutatedRaster(rasterSeeds, dice) });
    if (verdict.kind === 'untyped' || verdict.kind === 'differs')
      throw new Error(`file ${i}: ${verdict.why}`);
    seen[verdict.kind] += 1;
    if (verdict.kind === 'accepted' && verdict.isCompared) seen.compared += 1;
  }
  // Both ways must have been taken, or nothing was compared.
  expect(seen.refused).toBeGreaterThan(files / 10);
  expect(seen.compared).toBeGreaterThan(files / 20);
});

test.each(rasterSeeds.map((bytes, i) => ({ bytes, i })))(
  'seed $i is read as a second reader reads it',
  async ({ bytes }) =>
    expect(await judgeRaster({ name: 'changed.tif', bytes })).toEqual({ kind: 'accepted', isCompared: true }),
);

test.each([
  ['changed grids of text', mutatedAsc, 500],
  ['changed .hgt tiles', mutatedHgt, 40],
])('%s are refused by code, or read as a second reader reads them', async (_, change, count) => {
  const dice = new Dice(20_310_514);
  let compared = 0;
  for (let i = 0; i < count; i++) {
    const verdict = await judgeRaster(change(dice));
    if (verdict.kind === 'untyped' || verdict.kind === 'differs')
      throw new Error(`file ${i}: ${verdict.why}`);
    if (verdict.kind === 'accepted' && verdict.isCompared) compared += 1;
  }
  expect(compared).toBeGreaterThan(count / 20);
});

test.each(ascSeeds.map((bytes, i) => ({ bytes, i })))(
  'text seed $i is read as a second reader reads it',
  async ({ bytes }) =>
    expect(await judgeRaster({ name: 'seed.asc', bytes })).toEqual({ kind: 'accepted', isCompared: true }),
);

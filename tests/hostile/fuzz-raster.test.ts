import { expect, test } from 'vitest';
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
    const verdict = await judgeRaster(mutatedRaster(rasterSeeds, dice));
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
  async ({ bytes }) => expect(await judgeRaster(bytes)).toEqual({ kind: 'accepted', isCompared: true }),
);

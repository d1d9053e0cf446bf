import fc from 'fast-check';
import mgrs from 'mgrs';
import { expect, test } from 'vitest';
import { cases } from '../cases';
import { between } from '../evenly-drawn';
import { fromMgrs, toMgrs } from '../../src/core/line/mgrs';
import { distanceM } from '../../src/core/line/geodesic';

/**
 * The npm package mgrs 2.2.0 as a second opinion. Its own transverse Mercator is coarser, so a position within a few
 * centimetres of a grid line may fall into the neighbouring square metre; squares and tens of metres agree far more often
 * than one in a thousand.
 */
test('grid references agree with the mgrs package', () => {
  const place = fc.tuple(between(-180, 179.999), between(-79.99, 83.99));
  let compared = 0;
  let differ = 0;
  fc.assert(
    fc.property(place, (position) => {
      const own = (toMgrs(position) ?? '').replaceAll(' ', '');
      const theirs = mgrs.forward([...position], 5);
      compared += 1;
      if (own === theirs) return;
      differ += 1;
      const back = fromMgrs(theirs);
      expect(back && distanceM(back, position)).toBeLessThan(1.5);
    }),
    { numRuns: cases(3000), seed: 2 },
  );
  expect(compared).toBe(cases(3000));
  expect(differ / compared).toBeLessThan(0.1);
});

test('references of every length are found where the package finds them', () => {
  for (const text of [
    '18SUJ',
    '18SUJ20',
    '18SUJ2306',
    '18SUJ234064',
    '33XWG0000058369',
    '31CDM4186716915',
    '60PZS2892806908',
  ]) {
    const own = fromMgrs(text);
    const [west, south, east, north] = mgrs.inverse(text);
    expect(own?.[0]).toBeGreaterThan(west - 0.02);
    expect(own?.[0]).toBeLessThan(east + 0.02);
    expect(own?.[1]).toBeGreaterThan(south - 0.02);
    expect(own?.[1]).toBeLessThan(north + 0.02);
  }
});

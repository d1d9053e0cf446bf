import { expect, test } from 'vitest';
import { segmentRow } from '../../../src/app/ledger/segment-row';
import type { Segment } from '../../../src/core/domain/segment';
import { madeUpPlan } from '../fixture/made-up-plan';

test('what cells may hide stands apart from the slope that the raster has', () => {
  const [segment] = madeUpPlan().segments;
  const row = (changes: Partial<Segment>) => segmentRow({ ...segment!, ...changes }, 'metric', null);
  expect(row({ slopeMaxDeg: 33.7, designSlopeMaxDeg: 36.2 })).toMatchObject({
    steepest: '34°',
    hidden: '+2° hidden',
  });
  expect(row({ slopeMaxDeg: 33.7, designSlopeMaxDeg: 34.1 }).hidden).toBe('');
  expect(row({ slopeMaxDeg: null, designSlopeMaxDeg: null })).toMatchObject({
    steepest: 'unknown',
    hidden: '',
  });
});

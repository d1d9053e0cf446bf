import { expect, test } from 'vitest';
import type { RunningBelayOptions } from '../../../src/core/pace/belay-options';
import { runRunningBelay } from '../../../src/core/pace/running-belay';

const usual: RunningBelayOptions = {
  lengthM: 300,
  climbers: 3,
  intervalM: 15,
  spacingM: 15,
  pickets: 3,
  captureDevices: 0,
  speedMS: 0.2,
  acts: { placeS: 150, clipS: 20, removeS: 45, stanceS: 120, handoverS: 120 },
};

/** Worked by hand, to 0.1 s: one climber's act after the other, as a guide would count them. */
test.each([
  { with: { lengthM: 30 }, timeS: 960, rotations: 1 },
  { with: {}, timeS: 8925, rotations: 10 },
  { with: { pickets: 6 }, timeS: 6315, rotations: 4 },
  { with: { pickets: 12 }, timeS: 5445, rotations: 2 },
  { with: { lengthM: 100 }, timeS: 3265, rotations: 4 },
  { with: { climbers: 2, intervalM: 30, spacingM: 30, pickets: 2 }, timeS: 6975, rotations: 10 },
  { with: { climbers: 4, intervalM: 10, spacingM: 10, pickets: 4, lengthM: 90 }, timeS: 3315, rotations: 3 },
  { with: { spacingM: 7.5, pickets: 6 }, timeS: 11775, rotations: 8 },
])('$with takes $timeS s and $rotations rotations', ({ with: options, timeS, rotations }) => {
  const run = runRunningBelay({ ...usual, ...options });

  expect(run.rotations).toBe(rotations);
  expect(Math.abs(run.timeS - timeS)).toBeLessThan(0.1);
  expect(run.walkingS + run.placementS + run.gatheringS).toBeCloseTo(timeS, 6);
});

test('who is no rope team on a running belay is a fault of the caller', () => {
  for (const wrong of [{ climbers: 1 }, { pickets: 1 }, { spacingM: 16 }, { spacingM: 0.5 }, { lengthM: -1 }])
    expect(() => runRunningBelay({ ...usual, ...wrong })).toThrow(RangeError);
});

test('a stretch without length is a piece placed, a stance, and the piece removed', () => {
  const run = runRunningBelay({ ...usual, lengthM: 0 });
  expect(run.gatheringsAtM).toEqual([0]);
  expect(run.walkingS).toBe(0);
});

test('a speed by distance is taken in the middle of every metre', () => {
  const even = runRunningBelay({ ...usual, speedMS: () => 0.2 });
  expect(even.timeS).toBeCloseTo(8925, 6);
  expect(even.gatheringsAtM).toEqual(runRunningBelay(usual).gatheringsAtM);
  // Half as fast beyond 150 m: as long again there, for lead and followers.
  const slower = runRunningBelay({ ...usual, speedMS: (m) => (m < 150 ? 0.2 : 0.1) });
  expect(slower.walkingS).toBeCloseTo(150 / 0.2 + 150 / 0.1, 6);
});

test('where every place asks for two pieces the lead goes one spacing less far', () => {
  const run = runRunningBelay({ ...usual, pickets: 4, standingPieces: () => 2 });
  expect(run.gatheringsAtM.slice(0, 2)).toEqual([30, 60]);
});

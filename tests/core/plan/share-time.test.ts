import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { PaceEvent } from '../../../src/core/pace/pace-event';
import { walkedS } from '../../../src/core/pace/walked';
import type { PacedStretch } from '../../../src/core/plan/pace-stretches';
import { shareStretch } from '../../../src/core/plan/share-time';
import type { Span } from '../../../src/core/plan/spans';
import { evenly, profileOf, projectOf } from './invented';

const spanOf = (fromM: number, toM: number): Span => ({ first: 0, end: 1, fromM, toM });
const event = (
  who: number,
  what: PaceEvent['what'],
  from: readonly [number, number],
  to: readonly [number, number],
) => ({ who, what, fromS: from[0], fromM: from[1], toS: to[0], toM: to[1] }) as PaceEvent;

/** The lead walks 60 m in a minute, places a piece for two, and walks on; the second comes later. */
const events = [
  event(1, 'walk', [180, 0], [280, 100]),
  event(0, 'walk', [0, 0], [60, 60]),
  event(0, 'place', [60, 60], [180, 60]),
  event(0, 'walk', [180, 60], [220, 100]),
];

const parts = {
  walkingS: 200,
  placementS: 120,
  gatheringS: 40,
  pitchingS: 20,
  crossingS: 10,
  transitionS: 0,
};

function stretchOf(mode: 'running-belay' | 'pitched-belay' | 'roped', more: object = {}): PacedStretch {
  return {
    span: spanOf(100, 200),
    input: {
      mode,
      stations: profileOf(evenly(41, { slopeDeg: 0 })).stations,
      ...{ fromM: 100, toM: 200, snow: { hardness: 'P', wetness: 'D' }, figures: defaultFigures },
      ...{ own: projectOf().ownPace, walkingRule: 'munter' },
    },
    pace: {
      time: { lowS: 200, defaultS: 300, highS: 600 },
      parts,
      events,
      pieces: [100, 130, 160, 200].map((alongM) => ({ alongM })),
      gatherings: [130, 200].map((alongM) => ({ alongM })),
      ...{ rotations: 2, pitches: 2, crossings: 1, pickets: 3 },
      ...more,
    },
    transition: { lowS: 5, defaultS: 10, highS: 20 },
  } as unknown as PacedStretch;
}

const thirds = [spanOf(100, 130), spanOf(130, 160), spanOf(160, 200)];

describe('a stretch shared among its segments', () => {
  test('each has the time from when anybody first comes to its beginning until somebody comes to its end', () => {
    const shares = shareStretch(stretchOf('running-belay'), thirds);
    // At 30 m after 30 s and at 60 m after 60 s: a tenth of 300 s each, the rest is the last's.
    expect(shares.map(({ time }) => time)).toEqual([
      { lowS: 20 + 5, defaultS: 30 + 10, highS: 60 + 20 },
      { lowS: 20, defaultS: 30, highS: 60 },
      { lowS: 160, defaultS: 240, highS: 480 },
    ]);
    expect(shares[0]!.parts).toEqual({
      ...{ walkingS: 20, placementS: 12, gatheringS: 4, pitchingS: 2, crossingS: 1, transitionS: 10 },
    });
    expect(shares[1]!.parts).toEqual({
      ...{ walkingS: 20, placementS: 12, gatheringS: 4, pitchingS: 2, crossingS: 1, transitionS: 0 },
    });
    expect(shares[2]!.parts!.walkingS).toBeCloseTo(160, 9);
  });

  test('a border that is passed after the stop has the stop before it', () => {
    const [first, second] = shareStretch(stretchOf('running-belay'), [spanOf(100, 180), spanOf(180, 200)]);
    // 80 m: 20 m behind the piece, at one metre a second.
    expect(first!.time!.defaultS).toBeCloseTo(200 + 10, 9);
    expect(second!.time!.defaultS).toBeCloseTo(100, 9);
  });

  test('a border that rounding leaves beyond the last step is reached with it', () => {
    const [first, second] = shareStretch(
      stretchOf('running-belay', {
        events: events.map((each) => ({ ...each, toM: Math.min(each.toM, 99) })),
      }),
      [spanOf(100, 199.5), spanOf(199.5, 200)],
    );
    expect(first!.time!.defaultS).toBeCloseTo(220 + 10, 9);
    expect(second!.time!.defaultS).toBeCloseTo(80, 9);
  });

  test('pieces and gatherings belong where they stand, those at a border to what follows, those at the end to the last', () => {
    const shares = shareStretch(stretchOf('running-belay'), thirds);
    expect(shares.map(({ pieces }) => pieces.map(({ alongM }) => alongM))).toEqual([
      [100],
      [130],
      [160, 200],
    ]);
    expect(shares.map(({ gatherings }) => gatherings.length)).toEqual([0, 1, 1]);
    expect(shares.map(({ rotations, pitches }) => [rotations, pitches])).toEqual([
      [0, 0],
      [1, 0],
      [1, 0],
    ]);
    const pitched = shareStretch(stretchOf('pitched-belay'), thirds);
    expect(pitched.map(({ rotations, pitches }) => [rotations, pitches])).toEqual([
      [0, 0],
      [0, 1],
      [0, 1],
    ]);
    expect(shares.map(({ crossings }) => crossings)).toEqual([1, 0, 0]);
  });

  test('one segment has all of it', () => {
    const [all] = shareStretch(stretchOf('running-belay'), [spanOf(100, 200)]);
    expect(all!.time).toEqual({ lowS: 205, defaultS: 310, highS: 620 });
    expect(all!.pieces).toHaveLength(4);
  });

  test('what takes nobody knows how long takes nobody knows how long in every part', () => {
    const shares = shareStretch(stretchOf('running-belay', { time: null, parts: null }), thirds);
    expect(shares.map(({ time, parts: of }) => [time, of])).toEqual([
      [null, null],
      [null, null],
      [null, null],
    ]);
  });

  test('walked, each has what its ground takes, by the walking rule', () => {
    const stretch = stretchOf('roped');
    const { stations } = profileOf([...evenly(30, { slopeDeg: 3 }), ...evenly(11, { slopeDeg: 18 })]);
    for (const walkingRule of ['munter', 'tobler'] as const) {
      const input = { ...stretch.input, stations, walkingRule };
      const shares = shareStretch({ ...stretch, input }, thirds);
      const walked = thirds.map(({ fromM, toM }) => walkedS({ ...input, rule: walkingRule, fromM, toM }));
      const total = walked.reduce((sum, s) => sum + s, 0);
      expect(shares[1]!.time!.defaultS).toBeCloseTo((300 * walked[1]!) / total, 9);
      expect(shares[2]!.time!.highS).toBeCloseTo((600 * walked[2]!) / total, 9);
      expect(shares.reduce((sum, { time }) => sum + time!.defaultS, 0)).toBeCloseTo(310, 9);
    }
    // A leg by DIN 33466 has no parts: they are shared as by Munter's rule.
    const din = { ...stretch.input, stations, walkingRule: 'din-33466' as const };
    const byMunter = { ...din, walkingRule: 'munter' as const };
    expect(shareStretch({ ...stretch, input: din }, thirds)).toEqual(
      shareStretch({ ...stretch, input: byMunter }, thirds),
    );
  });

  test('where nothing takes time the length decides', () => {
    const still = stretchOf('running-belay', { events: [], time: { lowS: 0, defaultS: 0, highS: 0 } });
    const shares = shareStretch(still, [spanOf(100, 125), spanOf(125, 200)]);
    expect(shares.map(({ parts: of }) => of!.walkingS)).toEqual([50, 150]);
  });
});

import { describe, expect, test } from 'vitest';
import type { Mode } from '../../../src/core/domain/mode';
import type { Segment } from '../../../src/core/domain/segment';
import type { TrackPoint } from '../../../src/core/domain/track';
import { afterwards } from '../../../src/core/pace/afterwards';
import { matchTrack, passingTimeMs } from '../../../src/core/pace/match-track';
import { noParts } from '../../../src/core/pace/stretch-input';
import { usualPace } from '../../../src/core/pace/own-pace';
import { slopeLine } from './slope-line';

const stations = slopeLine({ lengthM: 2000, gradeDeg: 10 });
const startMs = Date.parse('2026-05-14T04:30Z');

/** A receiver on the line: at these distances at these seconds, straight between, a point every 10 s, off to the side by up to 8 m. */
function recorded(legs: readonly (readonly [alongM: number, seconds: number])[]): TrackPoint[] {
  const points: TrackPoint[] = [];
  for (let s = legs[0]![1]; s <= legs.at(-1)![1]; s += 10) {
    const i = Math.max(
      1,
      legs.findIndex(([, t]) => t >= s),
    );
    const [[m0, t0], [m1, t1]] = [legs[i - 1]!, legs[i]!];
    const alongM = m0 + ((m1 - m0) * (s - t0)) / Math.max(1, t1 - t0);
    const offDeg = (8 * Math.sin(s)) / 96_000;
    points.push({
      position: [-20 + offDeg, 30 + alongM / 111_000],
      elevationM: null,
      timeMs: startMs + 1000 * s,
    });
  }
  return points;
}

const segment = (
  id: number,
  fromM: number,
  toM: number,
  mode: Mode,
  parts: Partial<Segment['parts'] & object>,
): Segment => {
  const all = { ...noParts, ...parts };
  const defaultS = Object.values(all).reduce((sum, s) => sum + s, 0);
  return {
    id,
    fromM,
    toM,
    mode,
    lengthM: toM - fromM,
    variant: null,
    ascentM: id === 3 ? (toM - fromM) * Math.tan((15 * Math.PI) / 180) : 0,
    descentM: 0,
    slopeMeanDeg: id === 3 ? 20 : 10,
    slopeMaxDeg: 10,
    designSlopeMaxDeg: 10,
    aspectDeg: 180,
    runOut: 'gentle',
    snow: { hardness: 'P', wetness: 'D' },
    snowChanged: false,
    goingDown: false,
    overridden: false,
    reasons: [],
    decidedAt: { alongM: fromM, designSlopeDeg: 10, runOut: 'gentle', tolerancePct: 100 },
    flips: [],
    shares: {},
    time: { lowS: defaultS, defaultS, highS: defaultS },
    parts: all,
    pieces: Array.from({ length: mode === 'running-belay' ? 10 : 0 }, () => ({
      alongM: fromM,
      position: [0, 0] as const,
      placement: 'upright' as const,
      captureDevice: false,
    })),
    gatherings: [],
    rotations: 0,
    pitches: 0,
    arrive: null,
    leave: null,
    note: '',
  };
};
const segments = [
  segment(1, 0, 1000, 'roped', { walkingS: 1000 }),
  segment(2, 1000, 1200, 'running-belay', { walkingS: 1000, placementS: 2000, gatheringS: 1000 }),
  segment(3, 1200, 2000, 'roped', { walkingS: 1000 }),
];

describe('a recorded day', () => {
  const track = recorded([
    [0, -1800],
    [0, 0],
    [1000, 1200],
    [1200, 1200 + 6000],
    [2000, 1200 + 6000 + 1400],
  ]);
  const day = afterwards(track, { stations, segments, own: usualPace });

  test('tells what each segment took, breakfast at the start left out', () => {
    const expected = [1200, 6000, 1400];
    day.segments.forEach(({ realS }, i) => expect(Math.abs(realS! - expected[i]!)).toBeLessThan(45));
    expect(day.segments.map(({ plannedS }) => plannedS)).toEqual([1000, 4000, 1000]);
    expect(day.matchedPct).toBe(100);
  });

  test('offers the factors that would have foretold it', () => {
    expect(day.suggested.walkingFactor).toBeCloseTo(1.3, 1);
    // Of 6000 s the walking took 1.3 times its 1000 s.
    expect(day.suggested.placementFactor).toBeCloseTo(4700 / 3000, 1);
    expect(day.perPieceS?.plannedS).toBeCloseTo(300, 6);
    expect(day.perPieceS?.realS).toBeCloseTo(470, -1);
    expect(day.byGrade.map(({ fromDeg, plannedS }) => [fromDeg, plannedS])).toEqual([
      [0, 1000],
      [10, 1000],
    ]);
    expect(day.byGrade[0]!.suggested).toBeCloseTo(1.2, 1);
    expect(day.byGrade[1]!.suggested).toBeCloseTo(1.4, 1);
  });

  test('on top of the factors the plan already had', () => {
    const own = { walkingFactor: 1.1, walkingByGrade: [], placementFactor: 0.8 };
    const again = afterwards(track, { stations, segments, own });
    expect(again.suggested.walkingFactor).toBeCloseTo(1.1 * day.suggested.walkingFactor!, 6);
    expect(again.suggested.placementFactor).toBeCloseTo(0.8 * day.suggested.placementFactor!, 6);
    const steep = { ...own, walkingByGrade: [{ fromDeg: 10, toDeg: 20, factor: 2 }] };
    const { byGrade } = afterwards(track, { stations, segments, own: steep });
    expect(byGrade[0]!.suggested).toBeCloseTo(1.1 * day.byGrade[0]!.suggested!, 6);
    expect(byGrade[1]!.suggested).toBeCloseTo(2 * day.byGrade[1]!.suggested!, 6);
  });
});

describe('what the track does not show', () => {
  test('is unknown', () => {
    const half = recorded([
      [0, 0],
      [600, 600],
    ]);
    const day = afterwards(half, { stations, segments, own: usualPace });
    expect(day.segments.map(({ realS }) => realS)).toEqual([null, null, null]);
    expect(day.suggested).toEqual({ walkingFactor: null, placementFactor: null });
    expect(day.perPieceS).toBeNull();
  });

  test('a track elsewhere, or without times, matches nothing', () => {
    const away = recorded([
      [0, 0],
      [2000, 600],
    ]).map((p) => ({ ...p, position: [10, 40] as const }));
    const timeless = recorded([
      [0, 0],
      [2000, 600],
    ]).map((p) => ({ ...p, timeMs: null }));
    for (const track of [away, timeless, []]) {
      const day = afterwards(track, { stations, segments, own: usualPace });
      expect(day.matchedPct).toBe(0);
      expect(day.segments.every(({ realS }) => realS === null)).toBe(true);
    }
  });
});

test('a line there and back is walked once, in order', () => {
  const out = slopeLine({ lengthM: 500, gradeDeg: 0 });
  const back = out
    .slice(0, -1)
    .reverse()
    .map((station) => ({ ...station, alongM: 1000 - station.alongM }));
  const points = recorded([
    [0, 0],
    [500, 500],
    [0, 1500],
  ]);
  const matched = matchTrack(points, [...out, ...back]);
  expect(Math.abs(passingTimeMs(matched, 250, 'arriving')! - startMs - 250_000)).toBeLessThan(10_000);
  expect(Math.abs(passingTimeMs(matched, 750, 'arriving')! - startMs - 1_000_000)).toBeLessThan(20_000);
});

test('gaps in the track are bridged', () => {
  const points = recorded([
    [0, 0],
    [2000, 2000],
  ]).filter((_, i) => i < 40 || i > 140);
  const matched = matchTrack(points, stations);
  expect(Math.abs(passingTimeMs(matched, 1000, 'arriving')! - startMs - 1_000_000)).toBeLessThan(20_000);
});

describe('a day of which little is known', () => {
  test('a class walked for under ten minutes suggests nothing; a way without heights is in none', () => {
    const short = segment(1, 0, 500, 'roped', { walkingS: 500 });
    const flat = { ...segment(3, 500, 2000, 'roped', { walkingS: 1500 }), ascentM: null };
    const track = recorded([
      [0, 0],
      [2000, 2000],
    ]);
    const day = afterwards(track, { stations, segments: [short, flat], own: usualPace });
    expect(day.byGrade.map(({ suggested }) => suggested)).toEqual([null]);
  });

  test('a running belay alone gives a time per piece, by the planned walk; unplanned segments have only their real time', () => {
    const belayOnly = [segment(2, 1000, 1200, 'running-belay', { walkingS: 1000, placementS: 2000 })];
    const unplanned = { ...segment(4, 1200, 2000, 'none-holds', {}), time: null, parts: null };
    const track = recorded([
      [1000, 0],
      [1200, 4000],
      [2000, 5000],
    ]);
    const day = afterwards(track, { stations, segments: [...belayOnly, unplanned], own: usualPace });
    expect(day.suggested.walkingFactor).toBeNull();
    expect(Math.abs(day.perPieceS!.realS - 300)).toBeLessThan(25);
    expect(day.segments[1]!.plannedS).toBeNull();
    expect(Math.abs(day.segments[1]!.realS! - 1000)).toBeLessThan(45);
  });

  test('no line, no place on it; stations upon each other are one place', () => {
    expect(
      matchTrack(
        recorded([
          [0, 0],
          [100, 100],
        ]),
        [],
      ),
    ).toMatchObject({ lengthM: 0, reachedM: [] });
    const doubled = [stations[0]!, stations[0]!, ...stations.slice(1)];
    const matched = matchTrack(
      recorded([
        [0, 0],
        [100, 100],
      ]),
      doubled,
    );
    expect(matched.matchedPct).toBe(100);
    expect(Math.abs(matched.reachedM.at(-1)! - 100)).toBeLessThan(10);
  });

  test('who was on the line from the first moment on has passed its beginning then', () => {
    const matched = matchTrack(
      recorded([
        [505, 0],
        [1000, 500],
      ]),
      stations,
    );
    expect(passingTimeMs(matched, 500, 'arriving')).toBe(startMs);
    expect(passingTimeMs(matched, 400, 'arriving')).toBeNull();
  });
});

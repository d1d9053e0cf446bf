import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { planWith } from '../../../src/core/plan/make-plan';
import { sharesWith } from '../../../src/core/plan/segment-shares';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf, type Ground } from './invented';

const planOf = (grounds: readonly Ground[]) =>
  planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: projectOf(),
    figures: defaultFigures,
    settling: false,
  });

describe('shares of a segment', () => {
  /** The steepest place lies above a harmless run-out; what decides is gentler, above a deadly one. */
  const grounds = [
    ...evenly(20, { slopeDeg: 24, runOut: 'deadly' }),
    ...evenly(2, { slopeDeg: 26, runOut: 'gentle' }),
    ...evenly(20, { slopeDeg: 24, runOut: 'deadly' }),
  ];
  const { segments, stations, decisions } = planOf(grounds);
  const segment = segments.find(({ mode }) => mode === 'running-belay')!;

  test('are those of the place that asks for most, not of the steepest one', () => {
    expect(segment.decidedAt).toMatchObject({ designSlopeDeg: 24, runOut: 'deadly', tolerancePct: 15 });
    const shares = sharesWith(segment, stations, fakeSlips, false);
    const at = stations.findIndex(({ alongM }) => alongM === segment.decidedAt.alongM);
    expect(shares.roped!.unheld).toBe(decisions[at]!.unheldPct.roped);
    expect(shares.roped!.unheld).toBeGreaterThan(segment.decidedAt.tolerancePct!);
    expect(shares.running!.unheld).toBeLessThanOrEqual(segment.decidedAt.tolerancePct!);
  });

  test('with devices where there are some, and never on the way down', () => {
    const tried = (hasDevices: boolean, goingDown: boolean) =>
      Object.keys(sharesWith({ ...segment, goingDown }, stations, fakeSlips, hasDevices));
    expect(tried(true, false)).toContain('running-capture');
    expect(tried(true, true)).not.toContain('running-capture');
    expect(tried(false, false)).not.toContain('running-capture');
  });

  test('on ground without a fall line they are those straight up it, at the spread that is always there', () => {
    const flat = stations.map((station) => ({ ...station, betaDeg: null, slopeSigmaDeg: null }));
    const asked: unknown[] = [];
    const asking = {
      ...fakeSlips,
      sharesAt: (place: Parameters<typeof fakeSlips.sharesAt>[0]) => {
        asked.push([place.betaDeg, place.slopeSigmaDeg]);
        return fakeSlips.sharesAt(place);
      },
    };
    sharesWith(segment, flat, asking, false);
    expect(asked).toEqual(Array.from({ length: 4 }, () => [0, 0]));
  });

  test('there are none without ground data', () => {
    const hole = planOf(evenly(20, { slopeDeg: null }));
    expect(sharesWith(hole.segments[0]!, hole.stations, fakeSlips, true)).toEqual({});
  });
});

import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty, type Party } from '../../../src/core/domain/rope-team';
import { exposureS, isBadPlace } from '../../../src/core/pace/exposure';
import { chooseStandings, type StandingRules } from '../../../src/core/pace/gatherings';
import { paceStretch } from '../../../src/core/pace/stretch';
import type { StretchInput } from '../../../src/core/pace/stretch-input';
import { slopeLine } from './slope-line';

const withRack = (pickets: number): Party => ({ ...defaultParty, rack: { pickets, captureDevices: 0 } });

const input: StretchInput = {
  mode: 'running-belay',
  variant: 'running',
  stations: slopeLine({ lengthM: 120, gradeDeg: 0, slopeDeg: () => 30 }),
  fromM: 0,
  toM: 120,
  party: withRack(4),
  figures: defaultFigures,
  snow: { hardness: 'P', wetness: 'D' },
};
const at = (more: Partial<StretchInput>) => paceStretch({ ...input, ...more });

describe('where the team gathers', () => {
  test('when its pieces are used up, on even ground', () => {
    expect(at({}).gatherings.map(({ alongM }) => Math.round(alongM))).toEqual([36, 72, 108, 120]);
  });

  test('half way between two stations, where stretches end, as steep and as bad as either of them', () => {
    for (const borderM of [37.5, 62.5, 82.5])
      for (const [before, beyond] of [
        [25, 35],
        [35, 25],
      ] as const) {
        const stations = slopeLine({
          lengthM: 120,
          gradeDeg: 17,
          slopeDeg: (m) => (m < borderM ? before : beyond),
          runOut: (m) => (m < borderM === before < beyond ? 'deadly' : 'gentle'),
        });
        const own = at({ stations, toM: borderM }).gatherings.at(-1)!;
        expect(own.reason).toMatch(/^end of the stretch; 35°, deadly/);
        const runOutAt = (m: number) => (m > borderM + 1 === before < beyond ? 'gentle' : 'injuring');
        expect(at({ stations, toM: borderM, runOutAt }).gatherings.at(-1)!.reason).toMatch(/35°, injuring/);
      }
  });

  test('on a marked good place rather than elsewhere', () => {
    const { gatherings } = at({ goodPlace: (alongM) => Math.abs(alongM - 60) < 4 });
    const good = gatherings.find(({ reason }) => reason.startsWith('marked good gathering place'));
    expect(Math.abs(good!.alongM - 60)).toBeLessThan(4);
  });

  test('never where a mark forbids standing, as long as anything else is in reach', () => {
    const { gatherings } = at({ standForbidden: (alongM) => alongM > 25 && alongM < 45 });
    expect(gatherings.some(({ alongM }) => alongM > 25 && alongM < 45)).toBe(false);
    expect(gatherings.some(({ bad }) => bad)).toBe(false);
  });

  test('in the forbidden stretch if the pieces do not reach over it, and it says so', () => {
    const { gatherings } = at({ standForbidden: (alongM) => alongM > 25 && alongM < 75 });
    const inside = gatherings.filter(({ alongM }) => alongM > 25 && alongM < 75);
    expect(inside.length).toBeGreaterThan(0);
    expect(inside.every(({ bad, reason }) => bad && reason.includes('nothing better within reach'))).toBe(
      true,
    );
    expect(
      at({ standForbidden: (alongM) => alongM > 25 && alongM < 75, party: withRack(6) }).gatherings.filter(
        ({ bad }) => bad,
      ),
    ).toEqual([]);
  });

  test('flatter and above a gentler run-out where that costs little', () => {
    const stations = slopeLine({ lengthM: 120, gradeDeg: 0, slopeDeg: (m) => (m > 62 && m < 71 ? 12 : 35) });
    const { gatherings } = at({ stations });
    expect(gatherings.some(({ alongM }) => alongM > 60 && alongM < 73)).toBe(true);
    const deadly = at({ runOutAt: (m) => (m > 20 && m < 38 ? 'deadly' : 'gentle') });
    expect(deadly.gatherings.some(({ alongM }) => alongM > 20 && alongM < 38)).toBe(false);
  });

  test('and tells what a better place would cost', () => {
    const stations = slopeLine({ lengthM: 120, gradeDeg: 0, slopeDeg: (m) => (m > 27 && m < 33 ? 22 : 30) });
    const { gatherings } = at({ stations });
    const dear = gatherings.find(({ better }) => better !== null);
    expect(dear?.better?.alongM).toBeGreaterThan(26);
    expect(dear?.better?.alongM).toBeLessThan(34);
    expect(dear?.better?.extraS).toBeGreaterThan(0);
    expect(dear?.reason).toMatch(
      /better \d+ m (before|further on) \(22°, gentle run-out\), for \d+ min more/,
    );
  });
});

describe('above a deadly run-out', () => {
  const deadly = { runOutAt: () => 'deadly' as const };
  test('the team gathers on two pieces, with one fewer for the lead', () => {
    const { gatherings, pieces, rotations } = at(deadly);
    expect(gatherings.every((gathering) => gathering.pieces === 2)).toBe(true);
    expect(gatherings.map(({ alongM }) => Math.round(alongM))).toEqual([24, 48, 72, 96, 120]);
    // Ten spacings, the start, and a second piece at the start and at five gatherings.
    expect(pieces).toHaveLength(10 + 1 + 6);
    expect(rotations).toBe(5);
  });

  test('two pickets leave one to stand on', () => {
    expect(at({ ...deadly, party: withRack(2) }).gatherings.every(({ pieces }) => pieces === 1)).toBe(true);
  });

  test('an unknown run-out counts as deadly', () => {
    expect(
      at({ runOutAt: () => null, stations: input.stations.map((s) => ({ ...s, runOut: null })) }),
    ).toMatchObject({
      rotations: 5,
    });
  });
});

test('choice equals the best of all gatherings on a short stretch, with the real count of time', () => {
  for (let seed = 1; seed <= 20; seed++) {
    const slope = (m: number) => 25 + 20 * Math.sin(seed * 1.7 + m / (2 + (seed % 5)));
    const rules: StandingRules = {
      lengthM: 26,
      stepM: 2,
      reachM: () => 8,
      pieces: () => 1,
      legS: (lengthM) => 300 + 5 * lengthM + 150 * Math.ceil(lengthM / 4 - 1e-9),
      placeAt: (slopeM) => ({ slopeDeg: slope(slopeM), runOut: 'gentle', forbidden: false, good: false }),
    };
    const choice = chooseStandings(rules);
    const best = bruteForce(rules, 2);
    expect(choice.timeS + choice.exposureS).toBeCloseTo(best, 6);
  }
});

/** All gatherings on a grid, by trying them all. */
function bruteForce(rules: StandingRules, stepM: number, fromM = 0): number {
  const legTo = (toM: number) => rules.legS(toM - fromM, { atStart: 1, atEnd: 1 });
  let best = rules.lengthM - fromM <= rules.reachM(1) + 0.5 ? legTo(rules.lengthM) : Infinity;
  for (let toM = fromM + stepM; toM <= fromM + rules.reachM(1) && toM < rules.lengthM - 0.5; toM += stepM) {
    best = Math.min(best, legTo(toM) + exposureS(rules.placeAt(toM)) + bruteForce(rules, stepM, toM));
  }
  return best;
}

test('worse places count more', () => {
  const place = { slopeDeg: 30, runOut: 'gentle', forbidden: false, good: false } as const;
  const worse = [
    { ...place, good: true },
    { ...place, slopeDeg: 20 },
    place,
    { ...place, slopeDeg: 40 },
    { ...place, slopeDeg: 40, runOut: 'injuring' },
    { ...place, slopeDeg: 40, runOut: 'deadly' },
    { ...place, slopeDeg: null, runOut: 'deadly' },
    { ...place, forbidden: true, good: true },
  ] as const;
  const seconds = worse.map(exposureS);
  expect(seconds).toEqual([...seconds].sort((a, b) => a - b));
  expect(worse.map(isBadPlace)).toEqual([false, false, false, false, false, true, true, true]);
});

import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { variantMode, variants, type Variant } from '../../../src/core/domain/mode';
import { defaultParty } from '../../../src/core/domain/rope-team';
import type { TimeParts } from '../../../src/core/domain/segment';
import { hardnesses } from '../../../src/core/domain/snow';
import { secondsPerM } from '../../../src/core/pace/seconds-per-m';
import { between, spotAtSlope } from '../../../src/core/pace/on-line';
import { paceStretch } from '../../../src/core/pace/stretch';
import type { StretchInput } from '../../../src/core/pace/stretch-input';
import { slopeLine } from './slope-line';

const party = {
  ...defaultParty,
  rope: { ...defaultParty.rope, intervalM: 15 },
  rack: { pickets: 3, captureDevices: 3 },
};
const input: StretchInput = {
  mode: 'running-belay',
  variant: 'running',
  stations: slopeLine({ lengthM: 300, gradeDeg: 0 }),
  fromM: 0,
  toM: 300,
  party,
  figures: defaultFigures,
  snow: { hardness: 'P', wetness: 'D' },
};
const as = (variant: Variant, more: Partial<StretchInput> = {}) =>
  paceStretch({ ...input, variant, mode: variantMode[variant], ...more });
const sum = (parts: TimeParts) => (Object.values(parts) as number[]).reduce((total, s) => total + s, 0);

test('on even level ground with nothing below, pieces are used up before the team gathers', () => {
  const pace = as('running');
  expect(pace.time?.defaultS).toBeCloseTo(8925, 1);
  expect(pace).toMatchObject({ rotations: 10, pickets: 3 });
  expect(pace.pieces).toHaveLength(21);
});

describe('in every variant and snow', () => {
  const stations = slopeLine({ lengthM: 400, gradeDeg: 28, slopeDeg: (m) => 28 + 8 * Math.sin(m / 20) });
  const cases = variants.flatMap((variant) => hardnesses.map((hardness) => ({ variant, hardness })));
  test.each(cases)('$variant on $hardness: parts, log and time agree', ({ variant, hardness }) => {
    const snow = { hardness, wetness: 'D' } as const;
    const { time, parts, events, pieces, gatherings } = as(variant, {
      stations,
      fromM: 37,
      toM: 331,
      snow,
      withEvents: true,
    });
    if (hardness === 'I' && variant !== 'roped') {
      expect(time).toBeNull();
      return;
    }
    expect(sum(parts!)).toBeCloseTo(time!.defaultS, 6);
    expect(Math.max(...events.map(({ toS }) => toS))).toBeCloseTo(time!.defaultS, 6);
    expect(time!.lowS).toBeLessThan(time!.defaultS);
    expect(time!.defaultS).toBeLessThan(time!.highS);
    const places = [...pieces, ...gatherings].map(({ alongM }) => alongM);
    expect(places.every((m) => m >= 37 - 1e-6 && m <= 331 + 1e-6)).toBe(true);
    expect(gatherings.at(-1)?.alongM ?? 331).toBe(331);
  });
});

test('pieces are counted along the slope: a steep stretch needs more than its length on the map', () => {
  const steep = as('running', { stations: slopeLine({ lengthM: 300, gradeDeg: 45 }) });
  const level = as('running', { stations: slopeLine({ lengthM: 450, gradeDeg: 0 }), toM: 300 * Math.SQRT2 });
  expect(steep.time?.defaultS).toBeCloseTo(level.time!.defaultS, 3);
  expect(steep.pieces.length).toBe(level.pieces.length);
  const gaps = steep.pieces.slice(1).map(({ alongM }, i) => alongM - steep.pieces[i]!.alongM);
  expect(Math.max(...gaps)).toBeLessThan(15 / Math.SQRT2 + 1e-6);
  const pitches = as('pitched', { stations: slopeLine({ lengthM: 300, gradeDeg: 45 }) }).gatherings;
  const pitchesM = pitches.map(({ alongM }, i) => (alongM - (pitches[i - 1]?.alongM ?? 0)) * Math.SQRT2);
  expect(Math.max(...pitchesM)).toBeLessThan(50 + 1e-6);
});

test('pieces lie on the line', () => {
  for (const { alongM, position } of as('running').pieces) {
    expect(position[0]).toBeCloseTo(-20, 9);
    expect(position[1]).toBeCloseTo(30 + alongM / 111_000, 9);
  }
});

test('two pieces an interval take twice the pieces, devices more time to pass', () => {
  expect(as('running-double').pieces.length).toBe(41);
  const devices = as('running-capture');
  expect(devices.pieces.filter(({ captureDevice }) => captureDevice)).toHaveLength(10);
  expect(devices.time!.highS).toBeGreaterThanOrEqual(as('running').time!.highS);
});

test('few devices send the team together sooner, for every piece on the way carries one', () => {
  const carrying = (captureDevices: number) => ({
    party: { ...party, rack: { pickets: 6, captureDevices } },
  });
  expect(as('running-capture', carrying(2)).rotations).toBe(10);
  expect(as('running-capture', carrying(5)).rotations).toBe(4);
  expect(as('running-capture', carrying(0)).time).toBeNull();
});

test('what has no time says so', () => {
  const none = { time: null, parts: null, rotations: 0, pieces: [] };
  expect(paceStretch({ ...input, mode: 'none-holds', variant: null })).toMatchObject(none);
  expect(paceStretch({ ...input, mode: 'no-data', variant: null })).toMatchObject(none);
  expect(as('running', { party: { ...party, rack: { pickets: 1, captureDevices: 0 } } })).toMatchObject(none);
  expect(as('pitched', { party: { ...party, rope: { ...party.rope, lengthM: 8 } } })).toMatchObject(none);
  const blind = input.stations.map((station) => ({ ...station, elevationM: null }));
  expect(as('roped', { stations: blind }).time).toBeNull();
});

test('a change into the stretch belongs to its time', () => {
  const transition = { lowS: 100, defaultS: 180, highS: 300 };
  const [plain, changed] = [as('running'), as('running', { transition })];
  expect(changed.time!.defaultS - plain.time!.defaultS).toBe(180);
  expect(changed.time!.highS - plain.time!.highS).toBe(300);
  expect(changed.parts!.transitionS).toBe(180);
});

test('a slower team takes longer, and its gatherings stay where they are', () => {
  const stations = slopeLine({ lengthM: 300, gradeDeg: 0, slopeDeg: (m) => 30 + 10 * Math.sin(m / 9) });
  const plain = as('running', { stations });
  const slow = as('running', {
    stations,
    own: { walkingFactor: 1.5, walkingByGrade: [], placementFactor: 2 },
  });
  expect(slow.time!.defaultS).toBeGreaterThan(plain.time!.defaultS);
  expect(slow.gatherings.map(({ alongM }) => alongM)).toEqual(plain.gatherings.map(({ alongM }) => alongM));
});

test('a belayed crossing', () => {
  const pace = paceStretch({
    ...input,
    mode: 'belayed-crossing',
    variant: null,
    fromM: 100,
    toM: 106,
    withEvents: true,
  });
  expect(pace.time?.defaultS).toBeCloseTo(900 + (3 * 6) / 0.15, 3);
  expect(pace).toMatchObject({ crossings: 1, pickets: 2 });
});

test.each(variants)('seconds a metre of %s are those of a long stretch', (variant) => {
  const lengthM = variant === 'roped' ? 900 : 6000;
  const stations = slopeLine({ lengthM, gradeDeg: 25 });
  const place = { snow: input.snow, gradeDeg: 25, elevationM: 0, party, figures: defaultFigures };
  const { time } = as(variant, { stations, toM: lengthM });
  expect(Math.abs((secondsPerM(variant, place) * lengthM) / time!.defaultS - 1)).toBeLessThan(0.01);
});

test('no grade, no seconds a metre', () => {
  const place = { snow: input.snow, gradeDeg: null, elevationM: 0, party, figures: defaultFigures };
  expect(variants.map((variant) => secondsPerM(variant, place))).toEqual(variants.map(() => NaN));
});

test('gatherings above a deadly run-out cost more a metre', () => {
  const place = { snow: input.snow, gradeDeg: 0, elevationM: 0, party, figures: defaultFigures };
  expect(secondsPerM('running', { ...place, runOut: 'deadly' })).toBeGreaterThan(
    secondsPerM('running', place),
  );
});

describe('what has no time', () => {
  test('a stretch without length, a running belay in no variant of one, ground seen from one place', () => {
    expect(paceStretch({ ...input, toM: input.fromM }).time).toBeNull();
    expect(paceStretch({ ...input, variant: null }).time).toBeNull();
    expect(paceStretch({ ...input, variant: 'pitched' }).time).toBeNull();
    expect(between(Float64Array.of(5), Float64Array.of(7), 9)).toBe(7);
    expect(between(new Float64Array(0), new Float64Array(0), 9)).toBeNaN();
    expect(() => spotAtSlope([], 3)).toThrow(RangeError);
  });

  test('a metre of a belay that cannot be: too few pieces, ice, one alone, a rope too short', () => {
    const place = { snow: input.snow, gradeDeg: 0, elevationM: 0, party, figures: defaultFigures };
    const perM = (variant: Variant, more: object) => secondsPerM(variant, { ...place, ...more });
    expect(perM('running', { party: { ...party, rack: { pickets: 1, captureDevices: 0 } } })).toBeNaN();
    expect(perM('running', { snow: { hardness: 'I', wetness: 'D' } })).toBeNaN();
    expect(perM('pitched', { snow: { hardness: 'I', wetness: 'D' } })).toBeNaN();
    expect(perM('pitched', { party: { ...party, climbers: party.climbers.slice(0, 1) } })).toBeNaN();
    expect(perM('pitched', { party: { ...party, rope: { ...party.rope, lengthM: 9 } } })).toBeNaN();
    // Shorter than from one runner to the next: no choice of lengths.
    expect(perM('pitched', { party: { ...party, rope: { ...party.rope, lengthM: 14 } } })).toBeGreaterThan(0);
  });

  test('stations upon each other take no time to walk', () => {
    const stations = [...input.stations.slice(0, 5), input.stations[4]!, ...input.stations.slice(5)];
    const roped = { ...input, mode: 'roped', variant: 'roped' } as const;
    expect(paceStretch({ ...roped, stations }).time!.defaultS).toBeCloseTo(
      paceStretch(roped).time!.defaultS,
      6,
    );
  });
});

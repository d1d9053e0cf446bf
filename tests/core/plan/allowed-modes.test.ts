import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultTolerance } from '../../../src/core/domain/project';
import { choicesAt, type Place, type Rules } from '../../../src/core/plan/allowed-modes';
import type { SlipLookup } from '../../../src/core/plan/slip-lookup';
import { fakeSlips } from './fake-slips';

const rules: Rules = {
  climbers: 3,
  pickets: 6,
  captureDevices: 6,
  lowStretch: false,
  tolerance: defaultTolerance,
  figures: defaultFigures,
};
const place: Place = {
  designSlopeDeg: 30,
  slopeSigmaDeg: 1,
  betaDeg: 20,
  runOut: 'deadly',
  snow: { hardness: 'P', wetness: 'D' },
  goingDown: false,
  onRock: false,
};
/** All slips held, or none. */
const always = (unheldPct: number): SlipLookup => ({ ...fakeSlips, unheldAt: () => unheldPct });
const held = always(0);

const choose = (at: Partial<Place>, team: Partial<Rules> = {}, lookup = held) =>
  choicesAt({ ...place, ...at }, { ...rules, ...team }, lookup);
const all = ['roped', 'running', 'running-capture', 'running-double', 'pitched'];

describe('floors and ceilings that no share overrides (common practice)', () => {
  test('below 15 degrees roped travel always stands; from 15 on the shares say', () => {
    expect(choose({ designSlopeDeg: 14.9 }, {}, always(100))).toMatchObject({
      rule: 'easy',
      allowed: ['roped'],
    });
    expect(choose({ designSlopeDeg: 15 }, {}, always(100))).toMatchObject({ rule: 'shares', allowed: [] });
  });

  test('from 50 degrees only pitches are tried, above 60 nothing', () => {
    expect(choose({ designSlopeDeg: 49.9 }).allowed).toEqual(all);
    const steep = choose({ designSlopeDeg: 50 });
    expect(steep.allowed).toEqual(['pitched']);
    expect(Object.values(steep.barred)).toEqual(Array.from({ length: 4 }, () => 'pitched-only'));
    expect(choose({ designSlopeDeg: 60 }).allowed).toEqual(['pitched']);
    expect(choose({ designSlopeDeg: 60.1 })).toMatchObject({ rule: 'too-steep', allowed: [] });
  });

  test('bare ice is walked roped up to 20 degrees, with its figures where they are known; steeper, none holds', () => {
    const ice = { snow: { hardness: 'I', wetness: 'D' } } as const;
    expect(choose({ ...ice, designSlopeDeg: 20 }, {}, always(100))).toMatchObject({
      rule: 'easy-ice',
      allowed: ['roped'],
      unheldPct: { roped: 100 },
    });
    // Pieces do not stand on ice, however well the figures speak of them.
    expect(choose({ ...ice, designSlopeDeg: 20 }).allowed).toEqual(['roped']);
    const unasked = choose({ ...ice, designSlopeDeg: 12 }, {}, { ...held, knows: () => false });
    expect(unasked).toMatchObject({ allowed: ['roped'], unheldPct: {} });
    expect(choose({ ...ice, designSlopeDeg: 20.1 })).toMatchObject({ rule: 'bare-ice', allowed: [] });
  });

  test('without ground, alone or on steep rock nothing is decided by shares', () => {
    const nothing = { allowed: [], unheldPct: {}, tolerancePct: null, barred: {} };
    expect(choose({ designSlopeDeg: null })).toEqual({ rule: 'no-data', ...nothing });
    expect(choose({ designSlopeDeg: NaN })).toEqual({ rule: 'no-data', ...nothing });
    expect(choose({}, { climbers: 1 })).toEqual({ rule: 'alone', ...nothing });
    expect(choose({}, { climbers: 2 }).allowed).toEqual(all);
    expect(choose({ onRock: true })).toEqual({ rule: 'rock', ...nothing });
    expect(choose({ onRock: true, designSlopeDeg: 14 }).rule).toBe('easy');
  });
});

describe('what the rack and the rope bar', () => {
  const bars = (team: Partial<Rules>, at: Partial<Place> = {}) => choose(at, team).barred;
  test('clipped pieces and anchors need two pickets, two an interval three, above a deadly run-out four', () => {
    expect(bars({ pickets: 4 })).toEqual({});
    expect(bars({ pickets: 3 })).toEqual({ 'running-double': 'four-pieces' });
    expect(bars({ pickets: 3 }, { runOut: 'injuring' })).toEqual({});
    expect(bars({ pickets: 2 }, { runOut: 'injuring' })).toEqual({ 'running-double': 'three-pieces' });
    const one = choose({}, { pickets: 1 });
    expect(one.allowed).toEqual(['roped']);
    expect(new Set(Object.values(one.barred))).toEqual(new Set(['two-pieces']));
  });

  test('devices are not for the way down; a rope that hardly stretches is for roped travel only', () => {
    const stiff = choose({}, { lowStretch: true });
    expect(stiff.allowed).toEqual(['roped']);
    expect(new Set(Object.values(stiff.barred))).toEqual(new Set(['low-stretch']));
    expect(bars({ captureDevices: 0 })).toEqual({ 'running-capture': 'no-device' });
    expect(bars({}, { goingDown: true })).toEqual({ 'running-capture': 'device-going-down' });
    expect(bars({ captureDevices: 1 })).toEqual({});
  });
});

describe('shares against the tolerance', () => {
  test('as many unheld as may be are few enough, one more is not', () => {
    expect(choose({}, {}, always(15)).allowed).toEqual(all);
    expect(choose({}, {}, always(15.01)).allowed).toEqual([]);
    expect(choose({ runOut: 'injuring' }, {}, always(40)).allowed).toEqual(all);
    expect(choose({}, {}, always(15)).tolerancePct).toBe(15);
  });

  test('the simulation is asked about this place; without a fall line, about straight up it', () => {
    const asked: Parameters<SlipLookup['unheldAt']>[0][] = [];
    const asking = { ...held, unheldAt: (at: (typeof asked)[number]) => (asked.push(at), 0) };
    const at = { ...place, goingDown: true };
    choicesAt(at, { ...rules, captureDevices: 0 }, asking);
    expect(asked.map(({ variant }) => variant)).toEqual(all.filter((one) => one !== 'running-capture'));
    const { snow, goingDown } = at;
    expect(asked[0]).toEqual({
      variant: 'roped',
      snow,
      goingDown,
      slopeDeg: 30,
      slopeSigmaDeg: 1,
      betaDeg: 20,
    });
    asked.length = 0;
    choicesAt({ ...place, betaDeg: null, slopeSigmaDeg: null }, rules, asking);
    expect(asked[0]).toMatchObject({ betaDeg: 0, slopeSigmaDeg: 0 });
  });

  test('looking for the quickest only, it stops there', () => {
    const first = (slopeDeg: number) =>
      choicesAt({ ...place, designSlopeDeg: slopeDeg }, rules, fakeSlips, 'first');
    expect(first(20).allowed).toEqual(['roped']);
    expect(first(30).allowed).toEqual(['running']);
    expect(Object.keys(first(30).unheldPct)).toEqual(['roped', 'running']);
  });
});

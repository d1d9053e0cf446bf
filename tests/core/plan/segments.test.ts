import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultTolerance } from '../../../src/core/domain/project';
import type { Choice } from '../../../src/core/plan/allowed-modes';
import type { Condition } from '../../../src/core/plan/conditions';
import type { Decided } from '../../../src/core/plan/decide';
import { segmentOf, type SegmentParts } from '../../../src/core/plan/segments';
import type { State } from '../../../src/core/plan/states';
import { fakeSlips } from './fake-slips';

const parts = {
  id: 4,
  span: { first: 1, end: 4, fromM: 100, toM: 130 },
  pace: { time: null, parts: null, pieces: [], gatherings: [], rotations: 0, pitches: 0, crossings: 0 },
  climbs: { between: () => ({ ascentM: 12, descentM: 1 }) },
  model: {
    rules: {
      ...{ climbers: 3, pickets: 6, captureDevices: 0, lowStretch: false },
      ...{ tolerance: defaultTolerance, figures: defaultFigures },
    },
    lookup: fakeSlips,
    otherAbilities: [],
  },
  onGlacier: false,
} as unknown as SegmentParts;

interface Place {
  readonly slopeDeg?: number | null;
  readonly designSlopeDeg?: number | null;
  readonly aspectDeg?: number | null;
  readonly more?: Partial<Condition>;
}

const conditionOf = (alongM: number, { slopeDeg = 30, designSlopeDeg = 32, aspectDeg = 180, more }: Place) =>
  ({
    station: { alongM, slopeDeg, designSlopeDeg, aspectDeg, runOut: null },
    designSlopeDeg,
    slopeSigmaDeg: 1,
    betaDeg: 0,
    runOut: 'gentle',
    snow: { hardness: 'P', wetness: 'D' },
    goingDown: false,
    onRock: false,
    marks: [],
    crossing: null,
    override: null,
    runOutOverridden: false,
    snowChanged: false,
    ...more,
  }) as unknown as Condition;

const choice: Choice = {
  rule: 'shares',
  allowed: ['roped'],
  unheldPct: { roped: 9 },
  tolerancePct: 100,
  barred: {},
};

/** Three stations whose parts of the line are 5, 15 and 10 m long, and one before and behind that do not count. */
function segmentWith(
  places: readonly [Place, Place, Place],
  {
    state = 'roped',
    overrides = [],
    ...more
  }: Partial<SegmentParts> & {
    readonly state?: State;
    readonly overrides?: readonly { readonly fromM: number; readonly toM: number; readonly note: string }[];
  } = {},
) {
  const beside: Place = { slopeDeg: 70, designSlopeDeg: 75, aspectDeg: 90, more: { runOut: 'deadly' } };
  const all = [beside, ...places, beside];
  const decided = {
    line: { overrides },
    conditions: all.map((place, i) => conditionOf([90, 102, 115, 125, 140][i]!, place)),
    choices: all.map(() => choice),
    states: all.map(() => state),
    edgesM: Float64Array.of(80, 100, 105, 120, 130, 150),
  } as unknown as Decided;
  return segmentOf(decided, { ...parts, ...more });
}

describe('what a segment says of its ground', () => {
  test('mean and steepest slope, each station by its part of the line', () => {
    const segment = segmentWith([
      { slopeDeg: 20, designSlopeDeg: 22 },
      { slopeDeg: 30, designSlopeDeg: 41 },
      { slopeDeg: 40, designSlopeDeg: 33 },
    ]);
    expect(segment).toMatchObject({ id: 4, fromM: 100, toM: 130, lengthM: 30, ascentM: 12, descentM: 1 });
    expect(segment.slopeMeanDeg).toBeCloseTo((20 * 5 + 30 * 15 + 40 * 10) / 30, 9);
    expect(segment.slopeMaxDeg).toBe(40);
    expect(segment.designSlopeMaxDeg).toBe(41);
  });

  test('one unknown slope makes mean and steepest unknown, each by itself', () => {
    const half = segmentWith([{}, { designSlopeDeg: null }, {}]);
    expect(half).toMatchObject({ slopeMeanDeg: 30, slopeMaxDeg: 30, designSlopeMaxDeg: null });
    const other = segmentWith([{ slopeDeg: null }, {}, {}]);
    expect(other).toMatchObject({ slopeMeanDeg: null, slopeMaxDeg: null, designSlopeMaxDeg: 32 });
  });

  test.each([
    [[350, 10, null], 0],
    [[80, 100, 90], 90],
    [[200, 220, 240], 220],
    [[null, 315, null], 315],
  ])('aspects %j face %d', (aspects, expected) => {
    const [a, b, c] = aspects.map((aspectDeg) => ({ aspectDeg })) as [Place, Place, Place];
    const found = segmentWith([a, b, c]).aspectDeg!;
    expect(((found - expected + 540) % 360) - 180).toBeCloseTo(0, 9);
    expect(found).toBeGreaterThanOrEqual(0);
    expect(found).toBeLessThan(360);
  });

  test('slopes that face every way face nowhere', () => {
    expect(segmentWith([{ aspectDeg: 0 }, { aspectDeg: 120 }, { aspectDeg: 240 }]).aspectDeg).toBeNull();
    const none = { aspectDeg: null };
    expect(segmentWith([none, none, none]).aspectDeg).toBeNull();
  });

  test('the worst run-out, where there is ground', () => {
    const injuring = { more: { runOut: 'injuring' } } as const;
    expect(segmentWith([{}, injuring, {}]).runOut).toBe('injuring');
    expect(segmentWith([{}, injuring, { more: { runOut: 'deadly' }, designSlopeDeg: null }]).runOut).toBe(
      'injuring',
    );
    const blind = { designSlopeDeg: null };
    expect(segmentWith([blind, blind, blind]).runOut).toBeNull();
  });
});

describe('what a segment says of its choice', () => {
  const [fallsNotCounted, byThen] = [
    'Crevasse falls are not in these figures.',
    'Decided for the snow expected by the time the team comes here.',
  ];

  test('where it was decided: the steepest place', () => {
    const { decidedAt, reasons } = segmentWith([{}, { designSlopeDeg: 39 }, {}]);
    expect(decidedAt).toEqual({ alongM: 115, designSlopeDeg: 39, runOut: 'gentle', tolerancePct: 100 });
    expect(reasons).toEqual([
      'Roped travel leaves 9 of 100 modelled slips unheld; above a gentle run-out all may be.',
    ]);
  });

  test('a run-out of the guide’s, other snow by then, and crevasses where it is walked on a glacier', () => {
    const set = { more: { runOutOverridden: true, runOut: 'injuring' } } as const;
    expect(segmentWith([set, set, set]).reasons.at(-1)).toBe('The injuring run-out was set by the guide.');
    const changed = { more: { snowChanged: true } };
    const later = segmentWith([changed, changed, changed]);
    expect([later.snowChanged, later.reasons.at(-1)]).toEqual([true, byThen]);
    expect(segmentWith([{}, {}, {}], { onGlacier: true }).reasons.at(-1)).toBe(fallsNotCounted);
    expect(segmentWith([{}, {}, {}], { onGlacier: true, state: 'running' }).reasons).not.toContain(
      fallsNotCounted,
    );
  });

  test('mode and variant', () => {
    expect(segmentWith([{}, {}, {}], { state: 'running-double' })).toMatchObject({
      mode: 'running-belay',
      variant: 'running-double',
    });
    expect(segmentWith([{}, {}, {}], { state: 'none-holds' })).toMatchObject({
      mode: 'none-holds',
      variant: null,
    });
  });

  test('set by the guide if any of it is; the notes of all that reaches into it', () => {
    const set = { more: { override: { mode: 'roped' } } } as unknown as Place;
    expect(segmentWith([{}, set, {}]).overridden).toBe(true);
    expect(segmentWith([{}, {}, {}]).overridden).toBe(false);
    const { note } = segmentWith([{}, {}, {}], {
      overrides: [
        { fromM: 0, toM: 100, note: 'before' },
        { fromM: 0, toM: 101, note: 'keep left' },
        { fromM: 110, toM: 120, note: '' },
        { fromM: 129, toM: 400, note: 'scoop' },
        { fromM: 130, toM: 400, note: 'behind' },
      ],
    });
    expect(note).toBe('keep left; scoop');
  });
});

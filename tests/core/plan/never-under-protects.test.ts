import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Mark } from '../../../src/core/domain/mark';
import { modes, variants, type Variant } from '../../../src/core/domain/mode';
import { defaultTolerance, type Override, type Project } from '../../../src/core/domain/project';
import { defaultParty } from '../../../src/core/domain/rope-team';
import type { Decision, Plan } from '../../../src/core/domain/segment';
import { hardnesses, type Hardness } from '../../../src/core/domain/snow';
import { runOutClasses, type RunOutClass, type Station } from '../../../src/core/domain/station';
import { planWith } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { placeAt, profileOf, projectOf, type Ground } from './invented';

/** The rules of standing, said a second time and by themselves. */
function mayStand(
  variant: Variant,
  at: { slopeDeg: number; hardness: Hardness; runOut: RunOutClass; down: boolean },
  rack: { pickets: number; captureDevices: number },
): boolean {
  const { slopeDeg, hardness, runOut } = at;
  if (slopeDeg > 60) return false;
  if (hardness === 'I') return variant === 'roped' && slopeDeg <= 20;
  if (variant === 'roped' && slopeDeg < 15) return true;
  if (slopeDeg >= 50 && variant !== 'pitched') return false;
  if (variant !== 'roped' && rack.pickets < 2) return false;
  if (variant === 'running-double' && rack.pickets < (runOut === 'deadly' ? 4 : 3)) return false;
  if (variant === 'running-capture' && (rack.captureDevices < 1 || at.down)) return false;
  const eased = Math.min(1, Math.max(0, (22 - slopeDeg) / 7));
  const may = { gentle: 100, injuring: 40, deadly: 15 + 25 * eased }[runOut];
  const unheld = fakeSlips.unheldAt({
    variant,
    slopeDeg,
    betaDeg: 0,
    goingDown: at.down,
    snow: { hardness, wetness: 'D' },
  });
  return unheld <= may + 1e-6;
}

const ground: fc.Arbitrary<Ground> = fc.record({
  slopeDeg: fc.oneof({ weight: 12, arbitrary: between(0, 70) }, { weight: 1, arbitrary: fc.constant(null) }),
  runOut: fc.constantFrom(...runOutClasses),
  sigmaDeg: fc.constant(0.5),
});

/** Stretches of even ground with single odd stations among them. */
const line = fc
  .array(fc.tuple(ground, fc.integer({ min: 1, max: 12 }), fc.boolean()), { minLength: 1, maxLength: 12 })
  .map((stretches) =>
    stretches.flatMap(([one, count, down]) => Array.from({ length: count + 1 }, () => ({ ...one, down }))),
  )
  .filter((grounds) => grounds.length > 1);

const lengthOf = (grounds: readonly Ground[]) => (grounds.length - 1) * 5;

const problem = line.chain((grounds) => {
  const alongM = between(-20, lengthOf(grounds) + 20);
  const override: fc.Arbitrary<Override> = fc.record({
    id: fc.constant('o'),
    way: fc.constant('both' as const),
    fromM: alongM,
    toM: alongM,
    mode: fc.option(fc.constantFrom(...modes), { nil: null }),
    snow: fc.option(
      fc.record({ hardness: fc.constantFrom(...hardnesses), wetness: fc.constant('D' as const) }),
      { nil: null },
    ),
    runOut: fc.option(fc.constantFrom(...runOutClasses), { nil: null }),
    note: fc.constant(''),
  });
  const mark: fc.Arbitrary<Mark> = fc.record({
    id: fc.constant('m'),
    kind: fc.constantFrom(
      'crevasse-crossing',
      'bergschrund',
      'moat',
      'ice',
      'rock',
      'cornice',
      'no-standing',
      'gathering-place',
      'note',
    ),
    positions: fc.tuple(alongM, between(-30, 30)).map(([m, eastM]) => [placeAt(m, eastM)]),
    widthM: fc.option(between(0, 40), { nil: null }),
    bridge: fc.constant(null),
    seenOn: fc.constant(null),
    note: fc.constant(''),
  });
  return fc.record({
    grounds: fc.constant(grounds),
    overrides: fc.array(override, { maxLength: 3 }),
    marks: fc.array(mark, { maxLength: 3 }),
    pickets: fc.integer({ min: 0, max: 8 }),
    captureDevices: fc.integer({ min: 0, max: 4 }),
    hardness: fc.constantFrom(...hardnesses),
    turnsRoundGoingDown: fc.boolean(),
    brakeKnots: fc.boolean(),
  });
});

type Drawn = typeof problem extends fc.Arbitrary<infer T> ? T : never;

function projectFrom(drawn: Drawn): Project {
  const { pickets, captureDevices, hardness, brakeKnots } = drawn;
  return projectOf({
    overrides: drawn.overrides.map((o) => ({
      ...o,
      fromM: Math.min(o.fromM, o.toM),
      toM: Math.max(o.fromM, o.toM),
    })),
    marks: drawn.marks,
    snow: { hardness, wetness: 'D' },
    party: { ...defaultParty, rope: { ...defaultParty.rope, brakeKnots }, rack: { pickets, captureDevices } },
    turnsRoundGoingDown: drawn.turnsRoundGoingDown,
    tolerance: defaultTolerance,
  });
}

const planOf = (drawn: Drawn): Plan =>
  planWith(fakeSlips, {
    profile: profileOf(drawn.grounds),
    project: projectFrom(drawn),
    figures: defaultFigures,
    settling: false,
  });

const crossed = ['crevasse-crossing', 'bergschrund', 'moat'];

/** In the middle of what is crossed, whatever its width. */
const isCrossed = ({ marks }: Drawn, { position: [lng, lat] }: Station): boolean =>
  marks.some(({ kind, positions: [at] }) => {
    const [eastDeg, northDeg] = [at![0] - lng, at![1] - lat];
    return crossed.includes(kind) && Math.hypot(eastDeg, northDeg) * 111_320 < 2;
  });

const what = (station: Station, decision: Decision) =>
  `${station.alongM} m, ${station.designSlopeDeg}°: ${decision.mode}`;

/** Thousands of plans take longer than a test is usually given. */
const patient = { timeout: 240_000 };

describe('over random lines on random ground', patient, () => {
  test('every station stands in a variant that may stand there; none holds exactly where none may', () => {
    fc.assert(
      fc.property(problem, (drawn) => {
        const plain = { ...drawn, marks: [], overrides: [] };
        const plan = planOf(plain);
        const down = (i: number) =>
          plan.segments.find(({ toM }) => toM >= plan.stations[i]!.alongM)!.goingDown;
        const wrong = plan.stations.filter((station, i) => {
          const { mode, variant } = plan.decisions[i]!;
          const slopeDeg = station.designSlopeDeg;
          if (slopeDeg === null) return mode !== 'no-data';
          const at = {
            slopeDeg,
            hardness: drawn.hardness,
            runOut: station.runOut![drawn.hardness].class,
            down: down(i),
          };
          const may = variants.filter((one) => mayStand(one, at, drawn));
          return variant === null ? mode !== 'none-holds' || may.length > 0 : !may.includes(variant);
        });
        expect(wrong).toEqual([]);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('with marks and overrides: nobody stands where the numbers forbid it, unless the guide has set it', () => {
    fc.assert(
      fc.property(problem, (drawn) => {
        const plan = planOf(drawn);
        const { overrides } = projectFrom(drawn);
        const covers =
          ({ alongM }: Station) =>
          (o: Override) =>
            o.fromM <= alongM + 0.002 && o.toM >= alongM - 0.002;
        const hasCrossing = drawn.marks.some(({ kind }) => crossed.includes(kind));
        const wrong = plan.stations.flatMap((station, i) => {
          const decision = plan.decisions[i]!;
          const { mode, variant, allowed, unheldPct, tolerancePct } = decision;
          const slopeDeg = station.designSlopeDeg;
          const set = overrides.filter(covers(station)).map((o) => o.mode);
          if (decision.overridden) return set.includes(mode) ? [] : [what(station, decision)];
          if (mode === 'belayed-crossing') return hasCrossing ? [] : [what(station, decision)];
          if (mode === 'no-data') return slopeDeg === null ? [] : [what(station, decision)];
          if (mode === 'none-holds') return allowed.length === 0 ? [] : [what(station, decision)];
          if (isCrossed(drawn, station)) return [what(station, decision)];
          const isFloor = variant === 'roped' && slopeDeg! <= 20;
          const within = isFloor || unheldPct[variant!]! <= tolerancePct! + 1e-6;
          return allowed.includes(variant!) && within ? [] : [what(station, decision)];
        });
        expect(wrong).toEqual([]);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('segments tile the line, and totals are their sums', () => {
    fc.assert(
      fc.property(problem, (drawn) => {
        const { segments, totals, stations } = planOf(drawn);
        expect(segments[0]!.fromM).toBe(0);
        expect(segments.at(-1)!.toM).toBe(lengthOf(drawn.grounds));
        segments.slice(1).forEach((segment, i) => expect(segment.fromM).toBe(segments[i]!.toM));
        for (const segment of segments) expect(segment.toM).toBeGreaterThan(segment.fromM);
        expect(stations.slice(1).filter(({ alongM }, i) => alongM <= stations[i]!.alongM)).toEqual([]);

        const timed = segments.filter(({ time }) => time !== null);
        for (const key of ['lowS', 'defaultS', 'highS'] as const) {
          expect(totals.time[key]).toBeCloseTo(
            timed.reduce((sum, { time }) => sum + time![key], 0),
            6,
          );
        }
        for (const { time, parts } of timed) {
          const sum = Object.values<number>({ ...parts! }).reduce((a, b) => a + b, 0);
          expect(sum).toBeCloseTo(time!.defaultS, 6);
          expect(time!.lowS).toBeLessThanOrEqual(time!.defaultS + 1e-9);
          expect(time!.defaultS).toBeLessThanOrEqual(time!.highS + 1e-9);
        }
        const byMode = Object.values(totals.byMode);
        expect(byMode.reduce((sum, { lengthM }) => sum + lengthM, 0)).toBeCloseTo(totals.lengthM, 6);
        if (totals.notComputedBeyondM === null) {
          expect(byMode.reduce((sum, { timeS }) => sum + timeS!, 0)).toBeCloseTo(totals.time.defaultS, 6);
        } else expect(timed.length).toBeLessThan(segments.length);
        expect(totals.pieces).toBe(segments.reduce((sum, { pieces }) => sum + pieces.length, 0));
        const outside = segments.flatMap(({ fromM, toM, pieces, gatherings }) =>
          [...pieces, ...gatherings].filter(({ alongM }) => alongM < fromM - 1e-6 || alongM > toM + 1e-6),
        );
        expect(outside).toEqual([]);
      }),
      { numRuns: cases(1000) },
    );
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultTolerance } from '../../../src/core/domain/project';
import { variants, type Variant } from '../../../src/core/domain/mode';
import { runOutClasses, type RunOutClass } from '../../../src/core/domain/station';
import { hardnesses, type Hardness } from '../../../src/core/domain/snow';
import { prepareLine } from '../../../src/core/plan/conditions';
import { decide, type Costs } from '../../../src/core/plan/decide';
import { between } from '../../evenly-drawn';
import { fakeSlips } from './fake-slips';
import { profileOf } from './invented';

/** Lines that only go up, planned a second time without dynamic programming: every way through, rules and sums said again. */
type Standing = Variant | 'none-holds' | 'no-data';

interface ShortLine {
  readonly grounds: readonly { readonly slopeDeg: number | null; readonly runOut: RunOutClass }[];
  readonly hardness: Hardness;
  readonly pickets: number;
  readonly captureDevices: number;
  /** Seconds a metre, once, and for any change; by the order of standings. */
  readonly perM: readonly number[];
  readonly once: readonly number[];
  readonly change: readonly number[];
}

const order: readonly Standing[] = [...variants, 'none-holds', 'no-data'];
const at = (of: readonly number[], standing: string): number => of[order.indexOf(standing as Standing)] ?? 0;
const failsFromDeg = { roped: 20, running: 28, 'running-capture': 36, 'running-double': 32, pitched: 48 };
const soonerDeg = { F: -8, '4F': -6, '1F': -3, P: 0, K: 5, I: 30 };

function mayStand(line: ShortLine, i: number): readonly Standing[] {
  const { slopeDeg, runOut } = line.grounds[i]!;
  if (slopeDeg === null) return ['no-data'];
  const { pickets, captureDevices, hardness } = line;
  const ice = hardness === 'I';
  const limit = {
    gentle: 100,
    injuring: 40,
    deadly: slopeDeg <= 15 ? 40 : slopeDeg >= 22 ? 15 : 15 + (25 * (22 - slopeDeg)) / 7,
  }[runOut];
  const holds = (variant: Variant): boolean => {
    if (slopeDeg > 60) return false;
    if (ice) return variant === 'roped' && slopeDeg <= 20;
    if (variant === 'roped' && slopeDeg < 15) return true;
    if (variant !== 'pitched' && slopeDeg >= 50) return false;
    if (variant !== 'roped' && pickets < 2) return false;
    if (variant === 'running-double' && pickets < (runOut === 'deadly' ? 4 : 3)) return false;
    if (variant === 'running-capture' && captureDevices === 0) return false;
    return Math.min(100, Math.max(0, 4 * (slopeDeg - failsFromDeg[variant] + soonerDeg[hardness]))) <= limit;
  };
  const may = variants.filter(holds);
  // A rack that cannot equip a pitch leaves it as the last resort.
  const equipped = pickets < 4 && may.length > 1 ? may.filter((variant) => variant !== 'pitched') : may;
  return equipped.length > 0 ? equipped : ['none-holds'];
}

/** Seconds of the quickest of all ways over parts of so many metres, by trying them all. */
function quickestOfAllS(
  line: ShortLine,
  partsM: readonly number[],
  i = 0,
  before: Standing | null = null,
): number {
  if (i === line.grounds.length) return 0;
  return Math.min(
    ...mayStand(line, i).map((here) => {
      const anewS = before === here ? 0 : at(line.once, here);
      const changeS =
        before === null || before === here ? 0 : at(line.change, before) + at(line.change, here);
      return partsM[i]! * at(line.perM, here) + anewS + changeS + quickestOfAllS(line, partsM, i + 1, here);
    }),
  );
}

const seven = (max: number) => fc.array(between(1, max), { minLength: 7, maxLength: 7 });
const shortLine: fc.Arbitrary<ShortLine> = fc.record({
  grounds: fc.array(
    fc.record({
      slopeDeg: fc.oneof(
        { weight: 9, arbitrary: between(5, 63) },
        { weight: 1, arbitrary: fc.constant(null) },
      ),
      runOut: fc.constantFrom(...runOutClasses),
    }),
    { minLength: 2, maxLength: 7 },
  ),
  hardness: fc.constantFrom(...hardnesses),
  pickets: fc.integer({ min: 0, max: 6 }),
  captureDevices: fc.integer({ min: 0, max: 2 }),
  perM: seven(30),
  once: seven(600),
  change: seven(200),
});

test('the planned sequence is as quick as the quickest of all, and stands only where it may', () => {
  fc.assert(
    fc.property(shortLine, (line) => {
      const { stations, lengthM } = profileOf(line.grounds);
      const snow = { hardness: line.hardness, wetness: 'D' } as const;
      const costs: Costs = {
        secondsPerM: (state) => at(line.perM, state),
        onceS: (state) => at(line.once, state),
        changeS: (from, to) => at(line.change, from) + at(line.change, to),
      };
      const { states, edgesM } = decide(
        prepareLine({ stations, lengthM, snow, overrides: [], marks: [] }, defaultFigures, []),
        [],
        {
          rules: {
            climbers: 3,
            lowStretch: false,
            tolerance: defaultTolerance,
            figures: defaultFigures,
            pickets: line.pickets,
            captureDevices: line.captureDevices,
          },
          lookup: fakeSlips,
          costs,
        },
      );
      const partsM = line.grounds.map((_, i) => edgesM[i + 1]! - edgesM[i]!);
      let seconds = 0;
      states.forEach((state, i) => {
        expect(mayStand(line, i)).toContain(state);
        seconds += partsM[i]! * at(line.perM, state);
        const before = states[i - 1];
        if (before === state) return;
        seconds += at(line.once, state);
        if (before !== undefined) seconds += at(line.change, before) + at(line.change, state);
      });
      expect(seconds).toBeCloseTo(quickestOfAllS(line, partsM), 6);
    }),
    { numRuns: cases(1000) },
  );
});
